// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/operationoffers.h"

#include "domain/checking.h"
#include "kiosk/operationrows.h"
#include "kiosk/operationwords.h"

namespace ramplight {

OperationOffers operationOffers(const Operation& operation, const CarView& view, PersonId person,
                                const SiteBook& book, Moment now)
{
    OperationOffers offers;
    const OperationId id = operation.id;
    if (id.isNull())
        return offers;
    using State = OperationState;
    const State state = operation.state;
    const bool open = operation.isOpen();
    const bool mine = isRunBy(operation, person);
    const bool awaits = state == State::AwaitingCheck;
    const bool away = operation.isAway();
    const bool isolating = operation.spec->highVoltageIsolation;
    const std::optional<Isolation>& isolation = view.car().isolation;
    const QString some = QStringLiteral("…");
    const auto offer = [&view](bool shown, const CarCommand& command) {
        return view.probe(command, shown);
    };
    offers.start = offer(open && !awaits && !mine, car::StartWork{id});
    if (!offers.start.can && offers.start.shown && !hasReadCautions(operation, person)) {
        // Reading them is one touch with starting: see whether that is all that is in the way.
        offers.start = view.probeTogether({car::ReadCautions{id}, car::StartWork{id}}, true);
    }
    offers.pause = offer(mine, car::PauseWork{id, person, StopKind::Paused});
    offers.finish = offer(open && !operation.awaitsSecond(), car::SignOff{id, {}});
    offers.countersign =
        offer(operation.awaitsSecond() && operation.spec->secondPerson == SecondPerson::Countersign,
              car::Countersign{id});
    car::FailCheck fail{id, some, {}};
    const bool check = operation.spec->secondPerson == SecondPerson::Check;
    const std::vector<ChoiceRow> covered = coveredRows(operation, view.car(), book.rules());
    if (check && goesBack(view.car(), operation).empty() && !covered.empty())
        fail.work = OperationId{covered.front().choiceId.toInt()};
    offers.fail = offer(open && (check || awaits), fail);
    offers.reopen =
        offer(state == State::Closed || state == State::LeftAsIs || operation.awaitsSecond(),
              car::Reopen{id, some});
    offers.leave = offer(open && !operation.spec->safety, car::LeaveAsIs{id, some});
    offers.withdraw = offer(open && !operation.spec->safety && operation.origin == Origin::ByHand,
                            car::WithdrawOperation{id, some});
    const std::vector<ChoiceRow> colleagues =
        colleagueRows(operation, view.car(), person, book, now);
    const PersonId colleague{colleagues.empty() ? 0 : colleagues.back().choiceId.toInt()};
    offers.handOver = offer(open && !awaits && !colleague.isNull(), car::HandOver{id, colleague});
    const QDate day = book.times().dateOf(now);
    offers.block =
        offer(open && state != State::Blocked && !awaits, car::BlockForPart{id, {some, some, day}});
    offers.unblock = offer(state == State::Blocked && operation.part, car::Unblock{id});
    OutsideWork work;
    work.firm = some;
    work.dueBack = day;
    work.document = some;
    offers.sendOut = offer(open && state != State::Blocked && !awaits, car::SendOut{id, work});
    car::ReceiveBack back{id, some};
    if (operation.outside)
        back.keys = operation.outside->keys;
    offers.receive = offer(away, back);
    offers.changeDue = offer(operation.due().has_value(), car::ChangeDue{id, day, {}});
    offers.isolate = offer(open && isolating && !isolation, car::SetIsolation{id, some});
    offers.lift = offer(isolation && isolation->operation == id, car::LiftIsolation{id, some});
    return offers;
}

} // namespace ramplight
