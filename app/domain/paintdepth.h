// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "domain/ids.h"
#include "domain/site.h"
#include "domain/vocabulary.h"

#include <map>
#include <vector>

// Paint depth, panel against panel of one car. There is no universal figure: what counts is how far
// a panel lies from the others. Robust statistics, because the repainted panels are among those
// compared: the median of a car with two of nine panels filled is still that of the other seven.
// Pure.
namespace ramplight {

/// Micrometres at several points of each panel.
using PaintDepths = std::map<PlaceId, std::vector<int>>;

constexpr std::size_t leastPaintPoints = 3;
/// With fewer panels there is nothing to compare with.
constexpr std::size_t leastPaintPanels = 4;

enum class PaintSign {
    Alike,
    ThickerInPlaces, ///< single points stand out: a spot repair or filler
    Thicker,         ///< the panel as a whole: repainted
    Thinner,         ///< sanded or polished away, or a panel of another make
};

struct PanelPaint
{
    PlaceId panel;
    int median = 0; ///< micrometres
    int highest = 0;
    /// Modified z-score of the median, in tenths: 0.6745 * (median - median of all) / MAD.
    int scoreTenths = 0;
    PaintSign sign = PaintSign::Alike;
    QString words; ///< what is said of it, with the figures; empty when it is like the others

    friend bool operator==(const PanelPaint&, const PanelPaint&) = default;
};

struct PaintComparison
{
    int median = 0;  ///< of the panels' medians, micrometres
    int scatter = 0; ///< median absolute deviation from it, at least the panels' own
    std::vector<PanelPaint> panels;
    bool enough = false; ///< panels to compare with

    friend bool operator==(const PaintComparison&, const PaintComparison&) = default;
};

/// Modified z-scores with the cut at 3.5: B. Iglewicz and D. C. Hoaglin, How to Detect and Handle
/// Outliers, ASQC 1993. The scatter is never taken below that of the points on one panel, nor below
/// one micrometre, which is what a gauge shows. House figures paint-repaint-hint and
/// paint-filler-hint only add words, with their owner.
[[nodiscard]] PaintComparison comparePaint(const PaintDepths& depths, const Catalogue& catalogue,
                                           const HouseRules& rules);

} // namespace ramplight
