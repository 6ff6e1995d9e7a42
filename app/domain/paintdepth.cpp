// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/paintdepth.h"

#include "domain/housecatalogue.h"
#include "domain/say.h"
#include "domain/words.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace ramplight {

namespace {

constexpr int cutTenths = 35;

/// Of an even number the mean of the middle two, rounded down.
int medianOf(std::vector<int> values)
{
    if (values.empty())
        return 0;
    const auto middle = values.begin() + std::ssize(values) / 2;
    std::ranges::nth_element(values, middle);
    if (values.size() % 2 == 1)
        return *middle;
    return (*middle + *std::max_element(values.begin(), middle)) / 2;
}

int deviationOf(const std::vector<int>& values, int from)
{
    std::vector<int> away;
    for (const int value : values)
        away.push_back(std::abs(value - from));
    return medianOf(away);
}

int scoreTenths(int value, int median, int scatter)
{
    return static_cast<int>(std::lround(6.745 * (value - median) / scatter));
}

QString um(int micrometres)
{
    return valueWords(micrometres, 0, Unit::Micrometre);
}

/// "; over 200 µm (house) suggests new paint", when a hint is entered and exceeded.
QString hintWords(const Catalogue& catalogue, const HouseRules& rules, int highest)
{
    for (const auto& [name, said] :
         {std::pair{"paint-filler-hint", QT_TRANSLATE_NOOP("ramplight", "over %1 suggests filler")},
          std::pair{"paint-repaint-hint",
                    QT_TRANSLATE_NOOP("ramplight", "over %1 suggests new paint")}}) {
        const std::optional<NamedLimit> hint =
            namedLimit(catalogue, rules, QString::fromLatin1(name));
        if (hint && hint->max && highest > *hint->max)
            return QStringLiteral("; ") +
                   say(said).arg(QStringLiteral("%1 (%2)").arg(um(*hint->max), words(hint->owner)));
    }
    return {};
}

QString signWords(const PanelPaint& panel, int median)
{
    switch (panel.sign) {
    case PaintSign::Alike:
        return {};
    case PaintSign::ThickerInPlaces:
        return say("up to %1 in places, the other panels have %2")
            .arg(um(panel.highest), um(median));
    case PaintSign::Thicker:
        return say("%1, up to %2; the other panels have %3")
            .arg(um(panel.median), um(panel.highest), um(median));
    case PaintSign::Thinner:
        return say("only %1; the other panels have %2").arg(um(panel.median), um(median));
    }
    return {};
}

} // namespace

PaintComparison comparePaint(const PaintDepths& depths, const Catalogue& catalogue,
                             const HouseRules& rules)
{
    PaintComparison all;
    std::vector<int> medians;
    std::vector<int> within;
    for (const auto& [panel, points] : depths) {
        if (points.size() < leastPaintPoints)
            continue;
        PanelPaint paint;
        paint.panel = panel;
        paint.median = medianOf(points);
        paint.highest = *std::ranges::max_element(points);
        medians.push_back(paint.median);
        within.push_back(deviationOf(points, paint.median));
        all.panels.push_back(paint);
    }
    all.enough = all.panels.size() >= leastPaintPanels;
    all.median = medianOf(medians);
    all.scatter = std::max({deviationOf(medians, all.median), medianOf(within), 1});
    for (PanelPaint& panel : all.panels) {
        panel.scoreTenths = scoreTenths(panel.median, all.median, all.scatter);
        if (!all.enough)
            continue;
        if (panel.scoreTenths > cutTenths)
            panel.sign = PaintSign::Thicker;
        else if (panel.scoreTenths < -cutTenths)
            panel.sign = PaintSign::Thinner;
        else if (scoreTenths(panel.highest, all.median, all.scatter) > 2 * cutTenths)
            // One point scatters more than a median does: only what stands out twice as far.
            panel.sign = PaintSign::ThickerInPlaces;
        panel.words = signWords(panel, all.median);
        if (panel.sign == PaintSign::Thicker || panel.sign == PaintSign::ThickerInPlaces)
            panel.words += hintWords(catalogue, rules, panel.highest);
    }
    return all;
}

} // namespace ramplight
