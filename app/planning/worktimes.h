// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <vector>

// When somebody works: shifts less breaks and absences, on a line of minutes.
namespace ramplight::planning {

/// Whole minutes from the moment that a plan starts at; negative: before it.
using PlanMinute = int;

/// Later than everything that is planned.
inline constexpr PlanMinute never = 1'000'000'000;

/// from is inside, to is not.
struct Span
{
    PlanMinute from = 0;
    PlanMinute to = 0;

    friend bool operator==(const Span&, const Span&) = default;
};

/// What may interrupt work that has begun.
enum class Pause {
    Overnight, ///< any time off: it is left half done until the next shift
    SameDay,   ///< a break of the same day; what is sprayed or bonded is finished that day
    Never,     ///< nothing
};

/// The times at which one person works. Immutable; reads need no lock.
class WorkTimes
{
public:
    /// Longer gaps than this end a working day.
    static constexpr int longestBreakMinutes = 180;

    WorkTimes() = default;
    /// In any order; those that touch or overlap become one, empty ones are dropped.
    explicit WorkTimes(std::vector<Span> spans);

    [[nodiscard]] const std::vector<Span>& spans() const { return m_spans; }
    /// The first minute of work at or after t; never when there is none.
    [[nodiscard]] PlanMinute nextWork(PlanMinute t) const;
    /// Where work of so many minutes that begins at or after t, and keeps to its pause, would lie:
    /// from its first minute to its last. {never, never} when it cannot.
    [[nodiscard]] Span fit(PlanMinute t, int minutes, Pause pause) const;
    /// Minutes of work before t.
    [[nodiscard]] int workedBefore(PlanMinute t) const;

    /// A stretch of work, counted in minutes worked before it, and where it lies.
    struct Stretch
    {
        int worked = 0;
        Span span;
    };
    /// The first stretch of so many minutes that keeps to its pause and begins when so many have
    /// been worked or later. {never, never} when there is none.
    [[nodiscard]] Stretch stretchFrom(int worked, int minutes, Pause pause) const;
    /// Minutes of work inside a span.
    [[nodiscard]] int minutesIn(Span span) const;

private:
    [[nodiscard]] std::size_t spanAt(PlanMinute t) const;

    static constexpr int cellMinutes = 64;
    std::vector<Span> m_spans;
    int m_worked = 0;              ///< minutes of work altogether
    std::vector<int> m_workBefore; ///< minutes of work before each span, then all
    std::vector<int> m_day;        ///< number of the working day of each span
    std::vector<int> m_cells;      ///< the first span that ends after the cell's first minute
    std::vector<int> m_workCells;  ///< the same for cells of minutes worked
};

} // namespace ramplight::planning
