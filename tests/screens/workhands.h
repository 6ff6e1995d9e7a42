// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kioskbench.h"

namespace ramplight::test {

/// A technician's hand on the operation that a KioskBench shows. Every touch is a real one, and is
/// counted by what it is for.
class WorkHands
{
public:
    using Where = std::source_location;
    struct Touches
    {
        int digits = 0;  ///< of readings
        int choices = 0; ///< answers that a reading asks for
        int photos = 0;  ///< to take one: which, and that it is the one
        int others = 0;  ///< everything else
    };

    explicit WorkHands(KioskBench& bench)
        : m_bench(bench)
    {
    }

    [[nodiscard]] const Touches& touches() const { return m_touches; }
    /// Which reading is asked for, from 0; -1: none is.
    [[nodiscard]] int readingAt() const;
    /// Any words on the screen.
    bool tap(const QString& words, Where where = Where::current());
    /// An answer of the reading that is asked for; waits for what comes after it.
    bool answer(const QString& words, Where where = Where::current());
    /// Digits and "Done"; waits for what comes after it.
    bool enter(const QString& digits, Where where = Where::current());
    /// The same, and does not wait.
    bool typeReading(const QString& digits, Where where = Where::current());
    /// A photo of the drop folder, on the sheet that is shown.
    bool photo(const QString& fileName, Where where = Where::current());
    /// The same; waits until the picture that the work asks for at this rank is there.
    bool photo(const QString& fileName, std::size_t need, Where where = Where::current());

private:
    bool goesOn(int from, Where where);

    KioskBench& m_bench;
    Touches m_touches;
};

/// What is attached to the work.
[[nodiscard]] std::vector<AttachedPhoto> photosOf(const CarState& car, OperationId work);

} // namespace ramplight::test
