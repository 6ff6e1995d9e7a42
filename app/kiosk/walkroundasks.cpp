// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What the walk-round records, a command each. What it shows is in walkround.cpp.
#include "kiosk/walkround.h"

#include "domain/tyreconcerns.h"

#include <algorithm>
#include <utility>

namespace ramplight {

namespace {

std::vector<PlaceId> idsOf(const std::vector<const PlaceInfo*>& places, std::optional<Side> side)
{
    std::vector<PlaceId> ids;
    for (const PlaceInfo* place : places)
        if (!side || place->side == *side)
            ids.push_back(place->id);
    return ids;
}

std::function<std::vector<CarCommand>()> always(CarCommand command)
{
    return [command = std::move(command)] { return std::vector{command}; };
}

} // namespace

// A std::function owns what it was given, which the analyser does not see.
// NOLINTBEGIN(clang-analyzer-cplusplus.NewDeleteLeaks)

void WalkRound::begin(const QString& carId, int operationId)
{
    // What still waits for the disk on this car goes on: a review and the walk-round share the row.
    if (m_id != CarId{carId})
        m_steps.clear();
    m_id = CarId{carId};
    m_during = OperationId{operationId};
    m_ask.dismiss();
    m_last = {};
    m_same.reset();
    m_view = WalkView::Body;
    m_car.open(carId);
    m_tyres.begin();
    const PlaceId wanted = std::exchange(m_wanted, {});
    if (const PlaceInfo* place = placeInfo(wanted))
        m_view = walkViewOf(*place);
    touch(wanted.text);
    rebuild();
}

// It is found during the same work, or during none where that is not there any more.
void WalkRound::renumber(const QVariantMap&, const QVariantMap& operations)
{
    const auto now = operations.constFind(QString::number(m_during.value));
    if (now != operations.cend())
        m_during = OperationId{now->toInt()};
}

void WalkRound::wantPlace(const QString& placeId)
{
    m_wanted = PlaceId{placeId};
}

void WalkRound::put(Step step)
{
    m_steps.push_back(std::move(step));
    putNext();
}

void WalkRound::putNext()
{
    if (m_ask.busy() || m_steps.empty())
        return;
    const Step step = std::move(m_steps.front());
    m_steps.pop_front();
    const std::vector<CarCommand> commands = step.commands();
    if (commands.empty())
        putNext();
    else
        m_car.sendTo(m_id, m_ask, step.what, step.why, commands, false, step.then);
}

void WalkRound::putFinding(const QString& what, CarCommand command)
{
    put({what, tr("to record a finding on %1").arg(m_car.stockNumber()), always(std::move(command)),
         [this](const CarOutcome& outcome) {
             setLast(outcome.car, FindingId{outcome.car.nextFinding - 1});
             rebuild();
         }});
}

void WalkRound::setLast(const CarState& car, FindingId finding)
{
    const Finding* found = car.finding(finding);
    m_last = found != nullptr ? finding : FindingId{};
    m_lastData = found != nullptr ? found->versions.front().data : FindingData{};
}

void WalkRound::record(const QString& remedy)
{
    auto data = m_draft.data();
    if (!data) {
        m_ask.refuse(QStringLiteral("record"), QStringLiteral("field-missing"),
                     m_draft.fault().isEmpty() ? tr("Say first what is wrong there.")
                                               : m_draft.fault());
        return;
    }
    if (const auto known = fromName<Remedy>(remedy))
        data->remedies = {*known};
    recordData(*data);
}

void WalkRound::recordSame()
{
    if (!m_same || m_place.isEmpty())
        return;
    FindingData data = *m_same;
    data.place = m_place;
    recordData(data);
}

void WalkRound::recordData(FindingData data)
{
    m_same = data;
    // Its own place's only.
    m_same->count.reset();
    m_same->sizeMm.reset();
    m_same->treadTenthsMm.reset();
    m_same->note.clear();
    putFinding(QStringLiteral("record"), car::RecordFinding{std::move(data), m_during});
    touch({});
}

void WalkRound::foundSound()
{
    if (!canBeSound())
        return;
    put({QStringLiteral("sound"),
         tr("to record what is sound on %1").arg(m_car.stockNumber()),
         always(car::FindSound{{m_place}}),
         {}});
    touch({});
}

void WalkRound::recordSound(const QString& what, std::optional<Side> side)
{
    put({what,
         tr("to record what is sound on %1").arg(m_car.stockNumber()),
         [this, view = m_view, side]() -> std::vector<CarCommand> {
             const auto places = idsOf(unseenIn(view, m_car.car()), side);
             if (places.empty())
                 return {};
             return {car::FindSound{places}};
         },
         {}});
    touch({});
}

void WalkRound::foundViewSound()
{
    recordSound(QStringLiteral("soundView"), {});
}

void WalkRound::foundSideSound(bool leftSide)
{
    recordSound(QStringLiteral("soundSide"), leftSide ? Side::Left : Side::Right);
}

std::vector<CarCommand> WalkRound::tyreCommands(const PlaceId& place,
                                                const std::optional<Tread>& tread,
                                                const QString& dateCode) const
{
    std::vector<CarCommand> commands;
    // Read again: what only the earlier reading brought was never there.
    const CarState& car = m_car.car();
    CarState then = car;
    if (tread)
        then.treads[place] = *tread;
    if (!dateCode.isEmpty())
        then.tyres[place].dateCode = dateCode;
    const QDate today = dayOf(m_ticker.now(), m_book.rules());
    const auto before = tyreConcerns(car, place, m_catalogue, m_book.rules(), today);
    const auto after = tyreConcerns(then, place, m_catalogue, m_book.rules(), today);
    for (const auto& [id, finding] : car.findings)
        if (finding.stands() && std::ranges::find(before, finding.data()) != before.end() &&
            std::ranges::find(after, finding.data()) == after.end() &&
            isOwnSlip(car, finding, m_session.person()))
            commands.emplace_back(car::CorrectFinding{
                id, finding.data(), false, tr("The tyre was measured again."), {}});
    commands.emplace_back(car::RecordTyre{place, tread, dateCode});
    return commands;
}

void WalkRound::recordTyre(const PlaceId& place, const std::optional<Tread>& tread,
                           const QString& dateCode)
{
    put({QStringLiteral("tread"), tr("to record the tyres of %1").arg(m_car.stockNumber()),
         [this, place, tread, dateCode] { return tyreCommands(place, tread, dateCode); },
         [this, place](const CarOutcome& outcome) {
             // A low one is a finding of its own.
             for (const auto& [id, finding] : outcome.car.findings)
                 if (finding.stands() && finding.data().place == place &&
                     finding.versions.back().by == m_session.person())
                     setLast(outcome.car, id);
             rebuild();
         }});
}

void WalkRound::recordPaint()
{
    put({QStringLiteral("paint"),
         tr("to record the paint of %1").arg(m_car.stockNumber()),
         always(car::RecordPaintDepth{m_place, m_paint.micrometres()}),
         {}});
    m_paint.begin(m_place);
}

void WalkRound::confirmRepair()
{
    putFinding(QStringLiteral("confirmRepair"), car::ConfirmRepair{m_place});
}

void WalkRound::takeBack(int findingId)
{
    const Finding* finding = m_car.car().finding(FindingId{findingId});
    if (finding == nullptr || !finding->stands())
        return;
    put({QStringLiteral("takeBack"), tr("to take a finding on %1 back").arg(m_car.stockNumber()),
         always(car::CorrectFinding{
             finding->id, finding->data(), false, tr("Recorded by mistake."), {}}),
         [this](const CarOutcome&) {
             m_last = {};
             rebuild();
         }});
}

void WalkRound::takeOut(int operationId, const QString& reason)
{
    const OperationId id{operationId};
    const Operation* operation = m_car.car().operation(id);
    // What somebody added is a manager's to withdraw; what a rule suggested is the appraiser's.
    const bool added = operation != nullptr && operation->origin == Origin::ByHand;
    put({QStringLiteral("takeOut"),
         tr("to take work out on %1").arg(m_car.stockNumber()),
         always(added ? CarCommand{car::WithdrawOperation{id, reason.trimmed()}}
                      : CarCommand{car::TakeOut{id, reason.trimmed()}}),
         {}});
}

void WalkRound::finish()
{
    put({QStringLiteral("finish"), tr("to finish the appraisal of %1").arg(m_car.stockNumber()),
         always(car::FinishAppraisal{}), [this](const CarOutcome&) { emit finished(); }});
}

// NOLINTEND(clang-analyzer-cplusplus.NewDeleteLeaks)

} // namespace ramplight
