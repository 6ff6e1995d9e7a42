// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordcheck.h"

#include "record/recordwords.h"

#include <QCoreApplication>

namespace ramplight {

namespace {

QString say(const char* text)
{
    return QCoreApplication::translate("ramplight", text);
}

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
    if (model.digest() != stamp.modelDigest)
        return {false, say("Differs: what this record of %1 says is not what the ledger held at "
                           "entry %2.")
                           .arg(stamp.stockNumber)
                           .arg(stamp.seq)};
    // An earlier entry's hash is not at hand; there the digest speaks alone.
    if (stamp.seq == head.seq && stamp.headHash != head.hash)
        return {false,
                say("Differs: the fingerprint of %1 is not the one of the ledger's entry %2.")
                    .arg(stamp.stockNumber)
                    .arg(stamp.seq)};
    if (stamp.seq == now.seq)
        return {true, say("Agrees: %1 is in the ledger as this record says, fingerprint %2.")
                          .arg(stamp.stockNumber, model.fingerprint)};
    const RecordModel today =
        buildRecord(now, history, site, head, standingLine, std::max(now.lastAt, stamp.madeAt));
    const qint64 since = now.seq - stamp.seq;
    const QString entries =
        since == 1 ? say("one entry since") : say("%1 entries since").arg(since);
    const bool changed = today.status != model.status;
    return {false, say("Superseded: true when it was made, %1. %2 %3")
                       .arg(entries, changed ? say("The car now:") : say("The car still:"),
                            statusWordsNow(today))};
}

} // namespace ramplight
