// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/spoken/reading.h"
#include "domain/spokenround.h"

#include <tl/expected.hpp>

#include <QByteArray>
#include <QString>
#include <QStringList>

// From the words of a walk-round to drafts on a car. Pure.
namespace ramplight {

struct DraftedRound
{
    SpokenRound round;
    QStringList warnings; ///< what was stepped over: "line 12: ..."
};

/// Reads a transcript file. Error: words for a person, why it is none.
[[nodiscard]] tl::expected<DraftedRound, QString>
draftRound(const QByteArray& file, const QString& name, const spoken::Lexicon& lexicon,
           const QString& language, TrafficSide traffic);
[[nodiscard]] TranscriptId transcriptIdOf(const QByteArray& file);
[[nodiscard]] Traffic trafficOf(TrafficSide side);
/// "line 12: a cue without a time"
[[nodiscard]] QStringList warningWords(const Transcript& transcript);

} // namespace ramplight
