// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordcheck.h"

#include "domain/retention.h"
#include "domain/say.h"
#include "record/recordparts.h"
#include "record/recordwords.h"

#include <optional>

namespace ramplight {

namespace {

QString statusWordsNow(const RecordModel& now)
{
    return QStringLiteral("%1. %2").arg(statusTitle(now), statusSentence(now));
}

CarState stateAt(const CarId& id, const std::vector<CarEnvelope>& history, qint64 seq)
{
    CarState state;
    state.id = id;
    for (const CarEnvelope& entry : history)
        if (entry.seq <= seq)
            apply(state, entry);
    return state;
}

/// The first few, and how many more there are.
QString listed(const QStringList& what)
{
    constexpr qsizetype most = 8;
    QStringList shown = what.mid(0, most);
    if (what.size() > most)
        shown.append(say("and %1 more").arg(what.size() - most));
    return shown.join(QStringLiteral("; "));
}

/// What ended the record's truth: that the car was held again, or else the first entry after it.
QString supersededBy(const std::vector<CarEnvelope>& history, qint64 seq, const QString& zone)
{
    const CarEnvelope* first = nullptr;
    const CarEnvelope* again = nullptr;
    for (const CarEnvelope& entry : history) {
        if (entry.seq <= seq)
            continue;
        if (first == nullptr)
            first = &entry;
        if (again == nullptr && std::holds_alternative<CarHeldAgain>(entry.event))
            again = &entry;
    }
    const RecordTimes times(zone);
    if (again != nullptr)
        return say("Superseded since %1, when the car was held again: %2.")
            .arg(times.full(again->at), std::get<CarHeldAgain>(again->event).reason);
    return first == nullptr ? say("Superseded.")
                            : say("Superseded since %1.").arg(times.full(first->at));
}

RecordCheck superseded(const RecordStamp& stamp, const RecordModel& then, const RecordModel& today,
                       const std::vector<CarEnvelope>& history)
{
    const qint64 since = today.seq - then.seq;
    QStringList sentences{
        supersededBy(history, stamp.seq, today.rules.timeZone),
        say("True when it was made; %1.")
            .arg(since == 1 ? say("one entry since") : say("%1 entries since").arg(since))};
    const QStringList changed = differences(partsOf(then), today);
    sentences.append(changed.isEmpty() ? say("Nothing that it says has changed.")
                                       : say("Changed since: %1.").arg(listed(changed)));
    sentences.append(QStringLiteral("%1 %2").arg(
        today.status != then.status ? say("The car now:") : say("The car still:"),
        statusWordsNow(today)));
    return {false, sentences.join(QLatin1Char(' '))};
}

/// Nothing but the removal of photos under the house's retention came after an entry: it changes
/// nothing that a record says. Its last with all their photos; empty otherwise.
std::optional<PhotosRemoved> onlyRemovalSince(const std::vector<CarEnvelope>& history, qint64 seq)
{
    std::optional<PhotosRemoved> all;
    for (const CarEnvelope& entry : history) {
        if (entry.seq <= seq)
            continue;
        const auto* removed = std::get_if<PhotosRemoved>(&entry.event);
        if (removed == nullptr)
            return std::nullopt;
        PhotosRemoved more = *removed;
        if (all)
            more.photos.insert(more.photos.end(), all->photos.begin(), all->photos.end());
        all = std::move(more);
    }
    return all;
}

} // namespace

RecordCheck checkRecord(const RecordStamp& stamp, const CarState& now,
                        const std::vector<CarEnvelope>& history, const SiteState& site,
                        const RecordHead& head, const QString& standingLine)
{
    if (stamp.car != now.id.text)
        return {false, say("Differs: this record is of another car.")};
    if (stamp.seq > now.seq)
        return {false, say("Differs: the record was made from %1 entries, the ledger holds %2. "
                           "Entries are missing, or the record is of another workshop.")
                           .arg(stamp.seq)
                           .arg(now.seq)};
    const CarState then = stateAt(now.id, history, stamp.seq);
    const RecordModel model =
        buildRecord(then, history, site, {stamp.seq, stamp.headHash}, standingLine, stamp.madeAt);
    if (model.identity.stockNumber != stamp.stockNumber)
        return {false, say("Differs: the record says stock number %1, the ledger said %2 then.")
                           .arg(stamp.stockNumber, model.identity.stockNumber)};
    if (model.digest() != stamp.modelDigest) {
        QString words = say("Differs: what this record of %1 says is not what the ledger held at "
                            "entry %2.")
                            .arg(stamp.stockNumber)
                            .arg(stamp.seq);
        if (const QStringList what = differences(stamp.parts, model); !what.isEmpty())
            words += say(" Not the same: %1.").arg(listed(what));
        return {false, words};
    }
    if (stamp.headHash != head.hash)
        return {false,
                say("Differs: the fingerprint of %1 is not the one of the ledger's entry %2.")
                    .arg(stamp.stockNumber)
                    .arg(stamp.seq)};
    if (const auto removal = onlyRemovalSince(history, stamp.seq))
        return {true,
                say("Agrees: %1 is in the ledger as this record says. Since then the house removed "
                    "%2 of its photos, kept for %3, so they can be seen on such a record only.")
                    .arg(stamp.stockNumber)
                    .arg(removal->photos.size())
                    .arg(yearsWords(removal->years))};
    if (stamp.seq == now.seq)
        return {true, say("Agrees: %1 is in the ledger as this record says, fingerprint %2.")
                          .arg(stamp.stockNumber, model.fingerprint)};
    return superseded(
        stamp, model,
        buildRecord(now, history, site, head, standingLine, std::max(now.lastAt, stamp.madeAt)),
        history);
}

} // namespace ramplight
