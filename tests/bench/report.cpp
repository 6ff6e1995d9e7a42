// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/report.h"

#include <QTextStream>

#include <algorithm>

namespace ramplight::test {

double quantile(std::vector<double> values, double share)
{
    std::ranges::sort(values);
    const double at = share * static_cast<double>(values.size() - 1);
    const auto low = static_cast<std::size_t>(at);
    const std::size_t high = std::min(low + 1, values.size() - 1);
    const double part = at - static_cast<double>(low);
    return values[low] * (1 - part) + values[high] * part;
}

void tell(const QString& what, double ours, double bare, const QString& unit, Aim aim, double limit)
{
    const double ratio = ours / bare;
    const char* words = "";
    bool met = false;
    switch (aim) {
    case Aim::AtLeast:
        words = "at least";
        met = ratio >= limit;
        break;
    case Aim::AtMost:
        words = "at most";
        met = ratio <= limit;
        break;
    case Aim::Under:
        words = "under";
        met = ratio < limit;
        break;
    }
    QTextStream(stdout) << what << ": ours " << QString::number(ours, 'f', 2) << ' ' << unit
                        << ", bare " << QString::number(bare, 'f', 2) << ' ' << unit << ", ratio "
                        << QString::number(ratio, 'f', 2) << ", aim " << words << ' '
                        << QString::number(limit, 'f', 2) << ": " << (met ? "met" : "MISSED")
                        << Qt::endl;
}

} // namespace ramplight::test
