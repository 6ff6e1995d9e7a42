// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What the review records, through the walk-round's row of steps. What it shows is in
// speechreview.cpp.
#include "kiosk/speechreview.h"

#include "kiosk/carwords.h"

#include <algorithm>
#include <memory>

namespace ramplight {

namespace {

/// The same but for the order of the remedies, which a list of choices does not keep.
bool saysTheSameInAnyOrder(FindingData a, FindingData b)
{
    std::ranges::sort(a.remedies);
    std::ranges::sort(b.remedies);
    return a == b;
}

} // namespace

void SpeechReview::put(const QString& what, std::function<std::vector<CarCommand>()> commands,
                       std::function<void(const CarOutcome&)> then)
{
    m_walk.put({what, tr("to review what was said of %1").arg(m_walk.car()->stockNumber()),
                std::move(commands), std::move(then)});
}

void SpeechReview::decided(std::vector<DraftRef> refs, const QString& words)
{
    m_last = std::move(refs);
    m_lastWords = words;
    rebuild();
}

void SpeechReview::keepThen(std::function<void(const DraftRef&)> then)
{
    const DraftRef ref = this->ref(m_chosen);
    const FindingData data = draft()->data;
    put(
        QStringLiteral("keep"),
        [data, ref] {
            return std::vector<CarCommand>{car::RecordFinding{data, {}, ref}};
        },
        [this, ref, data, then = std::move(then)](const CarOutcome&) {
            decided({ref}, tr("Kept: %1").arg(findingWords(data, m_book.rules())));
            if (then)
                then(ref);
        });
}

void SpeechReview::keep()
{
    if (chosenOpen())
        keepThen({});
}

void SpeechReview::takePicture(const QImage& picture)
{
    if (!takesPicture())
        return;
    const auto attach = [this, picture](const DraftRef& ref) {
        m_walk.car()->attachFrame(picture, decisionOn(ref).finding.value);
    };
    if (chosenOpen())
        keepThen(attach);
    else
        attach(ref(m_chosen));
}

void SpeechReview::drop()
{
    if (!chosenOpen())
        return;
    const DraftRef ref = this->ref(m_chosen);
    const FindingData data = draft()->data;
    put(
        QStringLiteral("drop"),
        [ref] {
            return std::vector<CarCommand>{car::DropDraft{ref, true}};
        },
        [this, ref, data](const CarOutcome&) {
            decided({ref}, tr("Dropped: %1").arg(findingWords(data, m_book.rules())));
            keepCorrection(ref, std::nullopt);
        });
}

void SpeechReview::startChange()
{
    if (!chosenOpen())
        return;
    m_changing = ref(m_chosen);
    m_change.start(draft()->data);
}

void SpeechReview::recordChange()
{
    const SpokenDraft* drafted = car().draft(m_changing);
    const auto said = m_change.data();
    if (drafted == nullptr || !said) {
        ask()->refuse(QStringLiteral("change"), QStringLiteral("field-missing"),
                      m_change.fault().isEmpty() ? tr("Choose the place and what is wrong with it.")
                                                 : m_change.fault());
        return;
    }
    const bool same = saysTheSameInAnyOrder(drafted->data, *said);
    const FindingData data = same ? drafted->data : *said;
    put(
        QStringLiteral("change"),
        [data, ref = m_changing] {
            return std::vector<CarCommand>{car::RecordFinding{data, {}, ref}};
        },
        [this, data, same, ref = m_changing](const CarOutcome&) {
            decided({ref}, tr("Recorded: %1").arg(findingWords(data, m_book.rules())));
            if (!same)
                keepCorrection(ref, data);
        });
}

void SpeechReview::keepSure()
{
    std::vector<DraftRef> refs;
    for (const int draft : m_left.sure)
        refs.push_back(ref(draft));
    // What somebody else has decided since the touch is left out.
    const auto sent = std::make_shared<std::vector<DraftRef>>();
    put(
        QStringLiteral("keepSure"),
        [this, refs, sent] {
            sent->clear();
            std::vector<CarCommand> commands;
            for (const DraftRef& ref : refs) {
                if (endOf(ref) != DraftEnd::Open)
                    continue;
                sent->push_back(ref);
                commands.emplace_back(car::RecordFinding{car().draft(ref)->data, {}, ref});
            }
            return commands;
        },
        [this, sent](const CarOutcome&) {
            decided(*sent, tr("Kept: %1 sure findings").arg(sent->size()));
        });
}

void SpeechReview::reopen()
{
    if (draft() != nullptr && !chosenOpen())
        reopenAll({ref(m_chosen)});
}

void SpeechReview::undo()
{
    reopenAll(m_last);
}

void SpeechReview::reopenAll(const std::vector<DraftRef>& refs)
{
    // What the maintainer's file says of them is no longer so.
    std::vector<DraftRef> corrected;
    for (const DraftRef& ref : refs)
        if (const DraftEnd end = endOf(ref); end == DraftEnd::Changed || end == DraftEnd::Dropped)
            corrected.push_back(ref);
    put(
        QStringLiteral("reopen"),
        [this, refs] {
            std::vector<CarCommand> commands;
            for (const DraftRef& ref : refs) {
                const DraftDecision now = decisionOn(ref);
                const Finding* finding = car().finding(now.finding);
                if (now.end == DraftEnd::Dropped)
                    commands.emplace_back(car::DropDraft{ref, false});
                else if (finding != nullptr && finding->stands())
                    commands.emplace_back(car::CorrectFinding{finding->id,
                                                              finding->data(),
                                                              false,
                                                              tr("Kept by mistake in a review."),
                                                              {}});
            }
            return commands;
        },
        [this, refs, corrected](const CarOutcome&) {
            m_last.clear();
            m_lastWords.clear();
            rebuild();
            if (refs.size() == 1)
                choose(refs.front().draft);
            else
                setStage(firstWithWork());
            for (const DraftRef& ref : corrected)
                keepCorrection(ref, car().draft(ref)->data);
        });
}

void SpeechReview::keepCorrection(const DraftRef& ref, const std::optional<FindingData>& corrected)
{
    const SpokenReview* heard = car().review(ref.transcript);
    if (heard == nullptr)
        return;
    whenReady(m_desk.keepCorrection(heard->round, ref.draft, corrected), this,
              [this](const tl::expected<void, QString>& kept) {
                  if (!kept)
                      ask()->refuse(QStringLiteral("correction"), QStringLiteral("correction"),
                                    kept.error());
              });
}

void SpeechReview::keepDepths()
{
    put(QStringLiteral("keepDepths"), [this, depths = depthsReady()] {
        std::vector<CarCommand> commands;
        for (const SpokenDepth& depth : depths)
            if (!car().treads.contains(depth.tyre))
                commands.emplace_back(car::RecordTyre{depth.tyre, treadOf(depth)});
        return commands;
    });
}

void SpeechReview::keepSound()
{
    put(QStringLiteral("keepSound"), [this, transcript = m_transcript] {
        const SpokenReview* heard = car().review(transcript);
        const std::vector<PlaceId> places =
            heard == nullptr ? std::vector<PlaceId>() : leftOf(car(), *heard).sound;
        return places.empty() ? std::vector<CarCommand>()
                              : std::vector<CarCommand>{car::FindSound{places}};
    });
}

void SpeechReview::takeFacts()
{
    put(QStringLiteral("takeFacts"), [this, said = m_left.facts] {
        return ramplight::takeFacts(car(), said, tr("Said in the walk-round."));
    });
}

} // namespace ramplight
