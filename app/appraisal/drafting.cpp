// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/drafting.h"

#include <QCryptographicHash>

#include <algorithm>
#include <cmath>

namespace ramplight {

namespace {

std::optional<int> secondsOf(double seconds)
{
    return seconds < 0 ? std::nullopt : std::optional(static_cast<int>(seconds));
}

/// A count that the domain takes.
std::optional<int> countOf(const std::optional<int>& count)
{
    return count && *count >= 1 && *count <= 999 ? count : std::nullopt;
}

SpokenDraft draftOf(const SpokenFinding& said, const SpokenReading& reading)
{
    SpokenDraft draft;
    draft.data.place = said.place;
    draft.data.condition = said.condition;
    draft.data.severity = said.severity;
    draft.data.remedies = said.remedies;
    draft.data.count = countOf(said.count);
    draft.data.quote = QString::fromStdString(said.quote);
    draft.data.atSeconds = secondsOf(said.seconds);
    for (const SpokenTread& tread : reading.treads)
        if (tread.place == said.place)
            draft.data.treadTenthsMm = tread.lowTenthsMm;
    draft.percent = static_cast<int>(std::lround(said.confidence * 100));
    draft.first = static_cast<int>(said.begin);
    draft.last = static_cast<int>(said.end);
    return draft;
}

} // namespace

TranscriptId transcriptIdOf(const QByteArray& file)
{
    return {
        QString::fromLatin1(QCryptographicHash::hash(file, QCryptographicHash::Sha256).toHex())};
}

Traffic trafficOf(TrafficSide side)
{
    return side == TrafficSide::Right ? Traffic::Right : Traffic::Left;
}

QStringList warningWords(const Transcript& transcript)
{
    QStringList all;
    for (const TranscriptWarning& warning : transcript.warnings)
        all.append(QStringLiteral("line %1: %2").arg(warning.line).arg(warning.words));
    return all;
}

tl::expected<DraftedRound, QString> draftRound(const QByteArray& file, const QString& name,
                                               const spoken::Lexicon& lexicon,
                                               const QString& language, TrafficSide traffic)
{
    const auto transcript = parseTranscript(file);
    if (!transcript)
        return tl::unexpected(transcript.error());
    const SpokenReading reading = readSpeech(*transcript, lexicon, trafficOf(traffic));
    DraftedRound drafted;
    drafted.warnings = warningWords(*transcript);
    SpokenRound& round = drafted.round;
    round.transcript = transcriptIdOf(file);
    round.name = name;
    round.language = language;
    round.traffic = traffic;
    for (const SpokenFinding& finding : reading.findings)
        round.drafts.push_back(draftOf(finding, reading));
    for (const SpokenTread& tread : reading.treads)
        round.depths.push_back({tread.place, tread.lowTenthsMm, tread.highTenthsMm,
                                QString::fromStdString(tread.quote), secondsOf(tread.seconds)});
    round.sound = reading.sound;
    round.notMentioned = reading.notMentioned;
    round.facts = {reading.facts.odometer, reading.facts.odometerUnit, reading.facts.keys,
                   reading.facts.testMonths};
    return drafted;
}

} // namespace ramplight
