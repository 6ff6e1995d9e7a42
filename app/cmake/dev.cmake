# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# Everyday build: quick to compile, with debug information, tests on. GCC sweeps its memory late: a
# tenth less time, a tenth more memory.
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
# Where nobody is to look into a program, RAMPLIGHT_LINES=no in the environment saves another tenth.
set(lines -g1)
if("$ENV{RAMPLIGHT_LINES}" STREQUAL "no")
    set(lines -g0)
endif()
set(CMAKE_CXX_FLAGS_DEBUG "-Og ${lines} --param ggc-min-expand=1000 --param ggc-min-heapsize=1500000" CACHE STRING "")
set(RAMPLIGHT_QML_AHEAD OFF CACHE BOOL "")
set(RAMPLIGHT_TESTS ON CACHE BOOL "")
set(RAMPLIGHT_JOIN ON CACHE BOOL "")
