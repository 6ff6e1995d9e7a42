// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/worktimes.h"

#include <algorithm>

namespace ramplight::planning {

WorkTimes::WorkTimes(std::vector<Span> spans)
{
    std::erase_if(spans, [](const Span& span) { return span.to <= span.from; });
    std::sort(spans.begin(), spans.end(),
              [](const Span& a, const Span& b) { return a.from < b.from; });
    for (const Span& span : spans) {
        if (!m_spans.empty() && span.from <= m_spans.back().to)
            m_spans.back().to = std::max(m_spans.back().to, span.to);
        else
            m_spans.push_back(span);
    }
    int worked = 0;
    int day = 0;
    for (std::size_t i = 0; i < m_spans.size(); ++i) {
        if (i > 0 && m_spans[i].from - m_spans[i - 1].to > longestBreakMinutes)
            ++day;
        m_workBefore.push_back(worked);
        m_day.push_back(day);
        worked += m_spans[i].to - m_spans[i].from;
    }
    std::size_t first = 0;
    for (int t = 0; !m_spans.empty() && t < m_spans.back().to; t += cellMinutes) {
        while (m_spans[first].to <= t)
            ++first;
        m_cells.push_back(static_cast<int>(first));
    }
    m_workBefore.push_back(worked);
    m_worked = worked;
    first = 0;
    for (int w = 0; w < m_worked; w += cellMinutes) {
        while (first + 1 < m_spans.size() && m_workBefore[first + 1] <= w)
            ++first;
        m_workCells.push_back(static_cast<int>(first));
    }
}

// The first span that ends after t.
std::size_t WorkTimes::spanAt(PlanMinute t) const
{
    std::size_t i = 0;
    if (t > 0) {
        const auto cell = static_cast<std::size_t>(t / cellMinutes);
        if (cell >= m_cells.size())
            return m_spans.size();
        i = static_cast<std::size_t>(m_cells[cell]);
    }
    while (i < m_spans.size() && m_spans[i].to <= t)
        ++i;
    return i;
}

PlanMinute WorkTimes::nextWork(PlanMinute t) const
{
    const std::size_t i = spanAt(t);
    return i == m_spans.size() ? never : std::max(t, m_spans[i].from);
}

int WorkTimes::workedBefore(PlanMinute t) const
{
    const std::size_t i = spanAt(t);
    if (i == m_spans.size())
        return m_worked;
    return m_workBefore[i] + std::max(0, t - m_spans[i].from);
}

WorkTimes::Stretch WorkTimes::stretchFrom(int worked, int minutes, Pause pause) const
{
    constexpr Stretch none = {never, {never, never}};
    if (worked >= m_worked || minutes > m_worked - worked)
        return none;
    const std::size_t n = m_spans.size();
    auto i = static_cast<std::size_t>(m_workCells[static_cast<std::size_t>(worked / cellMinutes)]);
    while (m_workBefore[i + 1] <= worked)
        ++i;
    for (; i < n; ++i) {
        const int begun = std::max(worked, m_workBefore[i]);
        const int until = begun + minutes;
        std::size_t last = i;
        while (last < n && m_workBefore[last + 1] < until)
            ++last;
        if (last == n)
            return none;
        const bool keeps = last == i || pause == Pause::Overnight ||
                           (pause == Pause::SameDay && m_day[last] == m_day[i]);
        if (keeps)
            return {begun,
                    {m_spans[i].from + (begun - m_workBefore[i]),
                     m_spans[last].from + (until - m_workBefore[last])}};
    }
    return none;
}

Span WorkTimes::fit(PlanMinute t, int minutes, Pause pause) const
{
    return stretchFrom(workedBefore(t), minutes, pause).span;
}

int WorkTimes::minutesIn(Span span) const
{
    int minutes = 0;
    for (std::size_t i = spanAt(span.from); i < m_spans.size() && m_spans[i].from < span.to; ++i)
        minutes += std::min(m_spans[i].to, span.to) - std::max(m_spans[i].from, span.from);
    return minutes;
}

} // namespace ramplight::planning
