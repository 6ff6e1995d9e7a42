// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// The desk's part in spoken walk-rounds: files and words on the pool, what comes of them through
// the store.
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
    // The file is read and drafted here: the store's thread is everybody's, and a stick may be
    // slow.
    return onPool([this, path, car, actor]() -> Result {
        const auto site = askStore([](Workshop&, Store& store) { return store.ledger().site(); });
        if (!site)
            return tl::unexpected(site.error().words);
        const auto drafted = m_transcripts.draft(path, site->rules.trafficSide);
        if (!drafted)
            return tl::unexpected(drafted.error());
        const TranscriptId id = drafted->round.transcript;
        const CarRequest request{CommandId{QUuid::createUuid().toString(QUuid::WithoutBraces)},
                                 actor,
                                 car,
                                 {car::TakeSpeech{drafted->round}},
                                 false};
        using Known = tl::expected<bool, Failure>;
        const auto wasKnown = askStore([&](Workshop& workshop, Store& store) -> Known {
            const auto before = store.ledger().car(car);
            if (!before)
                return tl::unexpected<Failure>(before.error());
            if (const auto outcome = workshop.run(request); !outcome)
                return tl::unexpected(outcome.error());
            return before->review(id) != nullptr;
        });
        if (!wasKnown)
            return tl::unexpected(words(wasKnown.error()));
        return TranscriptTaken{id, drafted->warnings, *wasKnown};
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
