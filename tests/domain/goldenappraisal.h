// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "workbench.h"

#include <QString>

// The appraisals of tests/domain/golden: what is seen above the line "==", what comes of it below.
//
//     # a title
//     facts FACT...
//     found PLACE CONDITION [SEVERITY] [REMEDY] [size MM] [count N] [tread TENTHS]
//     unseen PLACE...
//     out KIND PLACE: REASON
//
// Every place that is neither found nor unseen is sound.
namespace ramplight::test {

/// A finding as a line says it; the words after "if" are facts and left alone. The place is empty
/// when the line is not a finding.
[[nodiscard]] FindingData findingOf(const QStringList& words);

/// Plays the upper part on a bench with the shipped catalogue and writes what came of it.
[[nodiscard]] QString outcomeOf(const QString& upper);

} // namespace ramplight::test
