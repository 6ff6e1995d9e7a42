# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# What runs on the wall: optimised, no assertions, no tests.
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG" CACHE STRING "")
set(RAMPLIGHT_JOIN ON CACHE BOOL "")
set(RAMPLIGHT_TESTS OFF CACHE BOOL "")
