// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

// What the harnesses of libFuzzer share. Each defines LLVMFuzzerTestOneInput: it hands the bytes to
// a reader and ends the program where the answer is not what must always be so. tst_fuzzed calls
// the same functions with the files that are kept.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
/// Changes bytes in its own way first; only where the fuzzer is linked.
extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t most, unsigned seed);
/// The fuzzer's own.
extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);

namespace ramplight::fuzz {

/// Ends the program with these words where something is not so.
inline void must(bool isSo, const char* words)
{
    if (isSo)
        return;
    std::fprintf(stderr, "not so: %s\n", words);
    std::abort();
}

} // namespace ramplight::fuzz
