// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/store.h"

#include <QTemporaryDir>

#include <memory>
#include <vector>

// Workshops that have been at it for years.
namespace ramplight::test {

/// What happened to one car.
using Story = std::vector<CarEvent>;

struct Stories
{
    std::vector<Story> released; ///< from arrival to sale
    std::vector<Story> open;     ///< in preparation, in no bay, with no timer running
};

/// Those of the demo week, played for this.
[[nodiscard]] Stories demoStories();

/// A SQLite file with so many cars, so many of them in preparation and spread evenly among the
/// released ones. Their events are appended through the store, many cars at a time.
class History
{
public:
    History(int cars, int open, const Stories& stories);

    /// Ends the program when it cannot be opened.
    [[nodiscard]] std::unique_ptr<Store> open() const;
    [[nodiscard]] qint64 entries() const { return m_entries; }
    [[nodiscard]] double seconds() const { return m_seconds; }

private:
    QTemporaryDir m_folder;
    qint64 m_entries = 0;
    double m_seconds = 0;
};

} // namespace ramplight::test
