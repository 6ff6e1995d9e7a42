# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# Everyday build: quick to compile, with debug information, tests on.
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
include(${CMAKE_CURRENT_LIST_DIR}/clang.cmake)
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
if(RAMPLIGHT_CLANG)
    set(CMAKE_CXX_FLAGS_DEBUG "-O1 -gline-tables-only" CACHE STRING "")
else()
    set(CMAKE_CXX_FLAGS_DEBUG "-Og -g1" CACHE STRING "")
endif()
set(RAMPLIGHT_QML_AHEAD OFF CACHE BOOL "")
set(RAMPLIGHT_TESTS ON CACHE BOOL "")
set(RAMPLIGHT_JOIN ON CACHE BOOL "")
