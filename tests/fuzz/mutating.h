// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "fuzzing.h"

#include <QByteArray>

#include <cstring>
#include <random>
#include <vector>

namespace ramplight::fuzz {

/// Changes what the fuzzer has by a format's own pieces, some of them from inputs that it starts
/// from. The seeds outlive it.
class Mutator
{
public:
    Mutator(const std::vector<QByteArray>& seeds, unsigned seed)
        : m_seeds(seeds)
        , m_random(seed)
    {
    }
    Mutator(const Mutator&) = delete;
    Mutator& operator=(const Mutator&) = delete;
    virtual ~Mutator() = default;

    /// For LLVMFuzzerCustomMutator: changes data in its place, where asked by the fuzzer first.
    std::size_t mutate(std::uint8_t* data, std::size_t size, std::size_t most, bool byFuzzerFirst)
    {
        QByteArray file(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size));
        if (byFuzzerFirst) {
            file.resize(static_cast<qsizetype>(most));
            file.truncate(static_cast<qsizetype>(
                LLVMFuzzerMutate(reinterpret_cast<std::uint8_t*>(file.data()), size, most)));
        }
        if (pick(16) == 0)
            file = any();
        const int changes = 1 + pick(mostChanges);
        for (int i = 0; i < changes; ++i)
            change(file);
        mend(file);
        file.truncate(static_cast<qsizetype>(most));
        std::memcpy(data, file.constData(), static_cast<std::size_t>(file.size()));
        return static_cast<std::size_t>(file.size());
    }

protected:
    virtual void change(QByteArray& file) = 0;
    /// After all changes.
    virtual void mend(QByteArray&) {}

    [[nodiscard]] int pick(qsizetype below)
    {
        return below <= 0 ? 0 : static_cast<int>(m_random() % static_cast<std::uint64_t>(below));
    }
    [[nodiscard]] const QByteArray& any()
    {
        return m_seeds[static_cast<std::size_t>(pick(static_cast<qsizetype>(m_seeds.size())))];
    }

private:
    static constexpr int mostChanges = 10;

    const std::vector<QByteArray>& m_seeds;
    std::mt19937_64 m_random;
};

} // namespace ramplight::fuzz
