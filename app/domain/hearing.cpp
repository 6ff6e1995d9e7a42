// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What a spoken walk-round brings: drafts, and what a person decides about them.
#include "domain/hearing.h"
#include "domain/carwork.h"
#include "domain/valuefaults.h"

namespace ramplight {

namespace {

QString words(DraftEnd end)
{
    switch (end) {
    case DraftEnd::Open:
        return QStringLiteral("open");
    case DraftEnd::Kept:
        return QStringLiteral("kept");
    case DraftEnd::Changed:
        return QStringLiteral("kept with a change");
    case DraftEnd::Dropped:
        return QStringLiteral("dropped");
    }
    return {};
}

DraftEnd endOf(const CarState& car, const DraftRef& ref)
{
    return car.review(ref.transcript)->decisions[static_cast<std::size_t>(ref.draft)].end;
}

} // namespace

MaybeRefusal draftFault(const CarState& car, const DraftRef& ref)
{
    if (ref.isNull())
        return std::nullopt;
    if (car.draft(ref) == nullptr)
        return Refusal{RefusalId::DraftUnknown, {}};
    if (const DraftEnd end = endOf(car, ref); end != DraftEnd::Open)
        return Refusal{RefusalId::DraftDecidedAlready, {words(end)}};
    return std::nullopt;
}

void decideDraft(CarWork& work, const DraftRef& ref, const FindingData& as, FindingId finding)
{
    if (ref.isNull())
        return;
    const bool same = work.car().draft(ref)->data == as;
    work.add(DraftDecided{ref.transcript, ref.draft, same ? DraftEnd::Kept : DraftEnd::Changed,
                          finding});
}

namespace decision {

MaybeRefusal on(CarWork& work, const car::TakeSpeech& c)
{
    if (auto no = work.needs(Right::Appraise))
        return no;
    if (c.round.transcript.isEmpty())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("the transcript")}};
    if (const PlaceId place = strangePlace(c.round); !place.isEmpty())
        return Refusal{RefusalId::PlaceUnknown, {place.text}};
    if (work.car().review(c.round.transcript) == nullptr)
        work.add(WalkRoundRead{c.round});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::DropDraft& c)
{
    if (auto no = work.needs(Right::Appraise))
        return no;
    if (work.car().draft(c.draft) == nullptr)
        return Refusal{RefusalId::DraftUnknown, {}};
    const DraftEnd end = endOf(work.car(), c.draft);
    if (end == DraftEnd::Kept || end == DraftEnd::Changed)
        return Refusal{RefusalId::DraftDecidedAlready, {words(end)}};
    const DraftEnd wanted = c.dropped ? DraftEnd::Dropped : DraftEnd::Open;
    if (end != wanted)
        work.add(DraftDecided{c.draft.transcript, c.draft.draft, wanted, {}});
    return std::nullopt;
}

} // namespace decision

} // namespace ramplight
