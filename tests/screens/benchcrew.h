// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "benchhouse.h"

namespace ramplight::test {

/// Work that was done before the screen is looked at: real commands of people who may, with
/// plausible readings inside their limits and photos. What cannot be done fails the test at the
/// caller's line. GUI thread.
class BenchCrew
{
public:
    using Where = std::source_location;

    explicit BenchCrew(BenchHouse& house)
        : m_house(house)
    {
    }

    /// One operation from its cautions to its last signature, by whoever may; waits for what dries.
    void finish(const CarId& car, const char* kind, const char* place = nullptr,
                Where where = Where::current());
    /// Everything that is open and what closing it opens, but for these kinds.
    void finishAll(const CarId& car, const QStringList& butFor = {},
                   Where where = Where::current());

    /// Everything, and it is dry: what is left is the release.
    void makeReady(const CarId& car, Where where = Where::current());

private:
    /// False when nobody may do it now.
    bool tryFinish(const CarId& car, OperationId id);
    void enterFigures(const CarId& car, const Operation& operation, PersonId doer);
    [[nodiscard]] ToolId toolFor(const ReadingSpec& spec);
    [[nodiscard]] std::vector<CarCommand> evidence(const Operation& operation);

    BenchHouse& m_house;
};

} // namespace ramplight::test
