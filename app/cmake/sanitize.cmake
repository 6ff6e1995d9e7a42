# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# Address and undefined-behaviour sanitizers, and the standard library's own checks.
# `cmake --build <dir> --target unit_tests`, then `ctest -L unit`.
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-Og -g1 -D_GLIBCXX_ASSERTIONS" CACHE STRING "")
set(RAMPLIGHT_SANITIZE ON CACHE BOOL "")
set(RAMPLIGHT_TESTS ON CACHE BOOL "")
