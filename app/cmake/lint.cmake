# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# Compile commands for clang-tidy: no compiler runs here but moc, so nothing is precompiled, and
# every layer gets one more unit that includes all its headers, so that each of them is read.
# `tests/lint/tidy.py --build <dir>` does the rest.
# Without common.cmake: clang-tidy reads the compiler's command and must not find ccache there.
set(CMAKE_EXPORT_COMPILE_COMMANDS ON CACHE BOOL "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O0" CACHE STRING "")
set(CMAKE_DISABLE_PRECOMPILE_HEADERS ON CACHE BOOL "")
set(RAMPLIGHT_LINT ON CACHE BOOL "")
set(RAMPLIGHT_TESTS ON CACHE BOOL "")
