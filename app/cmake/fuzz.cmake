# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# Clang's fuzzer with its sanitizers: `cmake --build <dir> --target fuzzers`, then tests/fuzz.
include(${CMAKE_CURRENT_LIST_DIR}/sanitize.cmake)
if(NOT RAMPLIGHT_CLANG)
    message(FATAL_ERROR "Fuzzing wants Clang (app/cmake/packages.txt).")
endif()
set(CMAKE_CXX_FLAGS_DEBUG
    "-O1 -gline-tables-only -D_GLIBCXX_ASSERTIONS -fsanitize=fuzzer-no-link" CACHE STRING "" FORCE)
set(RAMPLIGHT_FUZZ ON CACHE BOOL "")
