# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# Address and undefined-behaviour sanitizers, and the standard library's own checks.
# `cmake --build <dir> --target unit_tests`, then `ctest -L unit`.
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
# Clang writes instrumented code in a third of GCC's time, and its precompiled headers are a sixth as
# large; GCC's warnings are the everyday build's business.
find_program(RAMPLIGHT_CLANG clang++-22)
if(RAMPLIGHT_CLANG)
    set(CMAKE_CXX_COMPILER ${RAMPLIGHT_CLANG} CACHE STRING "")
    set(CMAKE_CXX_FLAGS_DEBUG "-O0 -gline-tables-only -D_GLIBCXX_ASSERTIONS" CACHE STRING "")
else()
    set(CMAKE_CXX_FLAGS_DEBUG "-Og -g1 -D_GLIBCXX_ASSERTIONS" CACHE STRING "")
endif()
set(RAMPLIGHT_SANITIZE ON CACHE BOOL "")
set(RAMPLIGHT_TESTS ON CACHE BOOL "")
set(RAMPLIGHT_JOIN ON CACHE BOOL "")
