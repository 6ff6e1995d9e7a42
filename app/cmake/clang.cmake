# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# For the kinds that are compiled often: Clang where it is installed (app/cmake/packages.txt). It
# takes a third of GCC's time with sanitizers, and its precompiled headers are a sixth as large.
# Without the timestamp in them ccache knows them again.
find_program(RAMPLIGHT_CLANG clang++-22)
if(RAMPLIGHT_CLANG)
    set(CMAKE_CXX_COMPILER ${RAMPLIGHT_CLANG} CACHE STRING "")
    set(CMAKE_CXX_FLAGS "-Xclang -fno-pch-timestamp" CACHE STRING "")
endif()
