// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// The desk's part in spoken walk-rounds: files and words on the pool, drafts through the store.
#include "desk/workshopdesk.h"

#include <QUuid>

namespace ramplight {

QFuture<tl::expected<std::vector<WaitingTranscript>, QString>> WorkshopDesk::transcripts()
{
    return onPool([this] { return m_transcripts.waiting(); });
}

QFuture<tl::expected<TranscriptTaken, QString>>
WorkshopDesk::readTranscript(const QString& path, const CarId& car, PersonId actor)
{
    using Result = tl::expected<TranscriptTaken, QString>;
    // One thing after the other on the store's thread: an hour of speech takes milliseconds, and
    // the traffic side is the house's.
    return m_store.run([this, path, car, actor](Workshop& workshop, Store& store) -> Result {
        const auto site = store.ledger().site();
        const auto before = store.ledger().car(car);
        if (!site || !before)
            return tl::unexpected((site ? before.error() : site.error()).words);
        const auto drafted = m_transcripts.draft(path, site->rules.trafficSide);
        if (!drafted)
            return tl::unexpected(drafted.error());
        TranscriptTaken taken{drafted->round.transcript, drafted->warnings,
                              before->review(drafted->round.transcript) != nullptr};
        const auto outcome =
            workshop.run(CarRequest{CommandId{QUuid::createUuid().toString(QUuid::WithoutBraces)},
                                    actor,
                                    car,
                                    {car::TakeSpeech{drafted->round}},
                                    false});
        if (!outcome)
            return tl::unexpected(words(outcome.error()));
        return taken;
    });
}

QFuture<tl::expected<SpokenText, QString>> WorkshopDesk::spokenText(const SpokenRound& round)
{
    return onPool([this, round] { return m_transcripts.text(round); });
}

QFuture<tl::expected<void, QString>>
WorkshopDesk::keepCorrection(const SpokenRound& round, int draft,
                             const std::optional<FindingData>& corrected)
{
    return onPool([this, round, draft, corrected] {
        return m_transcripts.keepCorrection(round, draft, corrected);
    });
}

} // namespace ramplight
