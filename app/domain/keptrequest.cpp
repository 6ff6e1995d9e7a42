// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/keptrequest.h"

#include "domain/kepttimers.h"
#include "domain/odometer.h"
#include "domain/overtaken.h"
#include "domain/say.h"
#include "domain/standingclock.h"
#include "domain/words.h"

#include <algorithm>
#include <type_traits>

namespace ramplight {
namespace {

OperationId operationOf(const CarCommand& command)
{
    return std::visit(
        []<class C>(const C& given) -> OperationId {
            if constexpr (requires { OperationId(given.operation); })
                return given.operation;
            else
                return {};
        },
        command);
}

/// What a request names of a car: a piece of work, a finding, or the car alone.
struct Named
{
    CarId car;
    OperationId operation;
    FindingId finding = {};
    QString title = {}; ///< of what is no work yet
    friend bool operator==(const Named&, const Named&) = default;
};

QString titleOfMove(const car::MoveCar& move, const SiteState& site)
{
    const Bay* bay = site.bay(move.bay);
    return bay == nullptr
               ? capital(move.parking)
               : say("Bay %1").arg(QStringLiteral("%1 %2").arg(bay->number).arg(bay->name));
}

/// Where something is measured; empty: nothing is, or of the whole car.
PlaceId measuredPlace(const CarCommand& command)
{
    if (const auto* tread = std::get_if<car::RecordTread>(&command))
        return tread->place;
    if (const auto* tyre = std::get_if<car::RecordTyre>(&command))
        return tyre->place;
    if (const auto* paint = std::get_if<car::RecordPaintDepth>(&command))
        return paint->panel;
    if (const auto* repair = std::get_if<car::ConfirmRepair>(&command))
        return repair->panel;
    return {};
}

/// Words for what has no number yet; empty: the command is about work that has one, or the car.
QString titleOfNew(const CarCommand& command, const SiteState& site)
{
    const HouseRules& rules = site.rules;
    if (const auto* move = std::get_if<car::MoveCar>(&command))
        return titleOfMove(*move, site);
    if (std::holds_alternative<car::FinishAppraisal>(command))
        return say("Walk-round");
    if (std::holds_alternative<car::ReadOdometer>(command))
        return say("Odometer");
    if (const PlaceId place = measuredPlace(command); !place.isEmpty())
        return capital(placeWords(place, rules));

    if (const auto* found = std::get_if<car::RecordFinding>(&command))
        return capital(findingWords(found->data, rules));
    if (const auto* opened = std::get_if<car::OpenOperation>(&command))
        return capital(placeWords(opened->place, rules));
    if (const auto* sound = std::get_if<car::FindSound>(&command))
        return sound->places.size() == 1 ? capital(placeWords(sound->places.front(), rules))
                                         : say("%1 places").arg(sound->places.size());
    return {};
}

/// Each once; first what a person would name.
std::vector<Named> namedIn(const WorkRequest& request, const SiteState& site)
{
    std::vector<Named> named;
    const auto add = [&](Named one) {
        if (std::ranges::find(named, one) == named.end())
            named.push_back(std::move(one));
    };
    if (const auto* together = std::get_if<TogetherRequest>(&request)) {
        for (const TogetherRequest::Item& item : together->items)
            add({item.car, item.operation});
        return named;
    }
    const auto& one = std::get<CarRequest>(request);
    for (const CarCommand& command : one.commands) {
        const OperationId operation = operationOf(command);
        const auto* photo = std::get_if<car::AttachPhoto>(&command);
        const bool ofFinding = photo != nullptr && !photo->finding.isNull();
        if (!operation.isNull() || !ofFinding)
            add({one.car, operation, {}, titleOfNew(command, site)});
        if (ofFinding)
            add({one.car, {}, photo->finding});
        if (const auto* fail = std::get_if<car::FailCheck>(&command);
            fail != nullptr && !fail->work.isNull())
            add({one.car, fail->work});
        if (const auto* found = std::get_if<car::RecordFinding>(&command);
            found != nullptr && !found->during.isNull())
            add({one.car, found->during});
        if (const auto* read = std::get_if<car::ReadOdometer>(&command);
            read != nullptr && !read->during.isNull())
            add({one.car, read->during});
    }
    return named;
}

QString measuredDeed(const CarCommand& command)
{
    const auto* tyre = std::get_if<car::RecordTyre>(&command);
    if (std::holds_alternative<car::RecordTread>(command) || (tyre != nullptr && tyre->tread))
        return say("tread measured");
    if (tyre != nullptr)
        return say("tyre read");
    if (std::holds_alternative<car::RecordPaintDepth>(command))
        return say("paint measured");
    if (std::holds_alternative<car::ConfirmRepair>(command))
        return say("found to be repaired before");
    if (const auto* read = std::get_if<car::ReadOdometer>(&command))
        return say("read: %1").arg(odometerWords(read->value, read->unit));
    return say("cautions read");
}

QString deed(const CarCommand& command)
{
    if (std::holds_alternative<car::StartWork>(command))
        return say("timer started");
    if (const auto* pause = std::get_if<car::PauseWork>(&command))
        return pause->how == StopKind::ShiftEnd ? say("timer stopped at the end of the shift")
                                                : say("timer stopped");
    if (std::holds_alternative<car::TakeReading>(command))
        return say("a reading");
    if (std::holds_alternative<car::AttachPhoto>(command))
        return say("a photo");
    if (const auto* sign = std::get_if<car::SignOff>(&command))
        return sign->note.isEmpty() ? say("signed off")
                                    : say("signed off, with the note \"%1\"").arg(sign->note);
    if (std::holds_alternative<car::SetFigure>(command))
        return say("a figure that was looked up");
    if (std::holds_alternative<car::Countersign>(command))
        return say("countersigned");
    if (const auto* fail = std::get_if<car::FailCheck>(&command))
        return say("check failed: \"%1\"").arg(fail->reason);
    if (std::holds_alternative<car::RecordFinding>(command))
        return say("a finding");
    if (std::holds_alternative<car::FindSound>(command))
        return say("found sound");
    if (const auto* opened = std::get_if<car::OpenOperation>(&command))
        return say("work added: \"%1\"").arg(opened->reason);
    if (std::holds_alternative<car::HandOver>(command))
        return say("handed over");
    if (const auto* block = std::get_if<car::BlockForPart>(&command))
        return say("waits for a part: %1").arg(block->part.part);
    if (std::holds_alternative<car::MoveCar>(command))
        return say("moved there");
    if (std::holds_alternative<car::FinishAppraisal>(command))
        return say("finished");
    return measuredDeed(command);
}

/// Whether work has the number there that it has here; work without a number is the car.
class SameWork
{
public:
    SameWork(const KeptRequest& kept, const std::vector<KeptWork>& now)
        : m_then(kept.works)
        , m_now(now)
    {
    }
    [[nodiscard]] bool is(const CarId& car, OperationId operation) const
    {
        const auto named = [&](const KeptWork& work) {
            return work.car == car && work.operation == operation && work.finding.isNull();
        };
        const auto then = std::ranges::find_if(m_then, named);
        const auto now = std::ranges::find_if(m_now, named);
        return operation.isNull() || (then != m_then.end() && now != m_now.end() &&
                                      then->kind == now->kind && then->place == now->place);
    }

private:
    const std::vector<KeptWork>& m_then;
    const std::vector<KeptWork>& m_now;
};

/// Whether a command can be told where it belongs, with the numbers of the findings that it names
/// as they are in this state of the car.
bool fits(CarCommand& command, const KeptRequest& kept, const SameWork& same, const CarState& car)
{
    if (auto* found = std::get_if<car::RecordFinding>(&command)) {
        // What is wrong with the car is so, whatever work it was found in.
        if (!same.is(car.id, found->during))
            found->during = {};
        return true;
    }
    if (auto* read = std::get_if<car::ReadOdometer>(&command); read != nullptr) {
        if (!same.is(car.id, read->during))
            read->during = {};
        return true;
    }
    if (auto* photo = std::get_if<car::AttachPhoto>(&command)) {
        const auto then = std::ranges::find_if(kept.works, [&](const KeptWork& work) {
            return !work.finding.isNull() && work.finding == photo->finding;
        });
        if (then != kept.works.end()) {
            photo->finding = findingIn(car, *then);
            if (photo->finding.isNull())
                return false;
        }
    }
    const auto* fail = std::get_if<car::FailCheck>(&command);
    return same.is(car.id, operationOf(command)) &&
           (fail == nullptr || same.is(car.id, fail->work));
}

/// What was kept, as it is asked of this ledger. Nothing: what it is about cannot be told. Errors:
/// the ledger's.
tl::expected<std::optional<WorkRequest>, StoreError> fitted(const KeptRequest& kept, Ledger& ledger)
{
    using Fitted = std::optional<WorkRequest>;
    const auto now = worksOf(kept.asked, ledger);
    if (!now)
        return tl::unexpected(now.error());
    const SameWork same(kept, *now);
    WorkRequest asked = kept.asked;
    bool all = true;
    if (auto* one = std::get_if<CarRequest>(&asked)) {
        auto car = ledger.car(one->car);
        if (!car)
            return tl::unexpected(car.error());
        car->id = one->car;
        for (CarCommand& command : one->commands)
            all = all && fits(command, kept, same, *car);
    } else {
        for (const TogetherRequest::Item& item : std::get<TogetherRequest>(asked).items)
            all = all && same.is(item.car, item.operation);
    }
    return all ? Fitted(std::move(asked)) : Fitted();
}

/// The end of a shift stops what runs; every kiosk of the house asks for it.
bool isEndOfShift(const WorkRequest& request)
{
    const auto* one = std::get_if<CarRequest>(&request);
    return one != nullptr && one->actor.isNull();
}

QString strayedWords()
{
    return say("The car's work was numbered anew meanwhile, so it is not certain which work this "
               "was for. Look at the car and enter it again.");
}

} // namespace

KeptWork knownAs(const Operation& work)
{
    KeptWork known;
    known.operation = work.id;
    known.kind = work.spec->id;
    known.place = work.place;
    return known;
}

KeptWork knownAs(const Finding& found)
{
    const FindingVersion& first = found.versions.front();
    KeptWork known;
    known.finding = found.id;
    known.place = first.data.place;
    known.condition = first.data.condition;
    known.foundBy = first.by;
    return known;
}

OperationId operationIn(const CarState& car, const KeptWork& work)
{
    const auto isIt = [&](const Operation& operation) {
        return operation.spec->id == work.kind && operation.place == work.place;
    };
    if (const Operation* same = car.operation(work.operation); same != nullptr && isIt(*same))
        return work.operation;
    OperationId number;
    for (const auto& [id, operation] : car.operations) {
        if (!isIt(operation))
            continue;
        if (!number.isNull())
            return {};
        number = id;
    }
    return number;
}

FindingId findingIn(const CarState& car, const KeptWork& found)
{
    const auto isIt = [&](const Finding& finding) {
        const KeptWork known = knownAs(finding);
        return known.place == found.place && known.condition == found.condition &&
               known.foundBy == found.foundBy;
    };
    if (const Finding* same = car.finding(found.finding); same != nullptr && isIt(*same))
        return found.finding;
    FindingId number;
    for (const auto& [id, finding] : car.findings)
        if (isIt(finding))
            number = id;
    return number;
}

const CommandId& idOf(const WorkRequest& request)
{
    return std::visit([](const auto& asked) -> const CommandId& { return asked.id; }, request);
}

PersonId actorOf(const WorkRequest& request)
{
    return std::visit([](const auto& asked) { return asked.actor; }, request);
}

QString deedWords(const WorkRequest& request)
{
    if (const auto* together = std::get_if<TogetherRequest>(&request))
        return say("%1 wheels signed off together").arg(together->items.size());
    QStringList deeds;
    for (const CarCommand& command : std::get<CarRequest>(request).commands)
        if (const QString one = deed(command); !deeds.contains(one))
            deeds.append(one);
    return capital(deeds.join(QStringLiteral(", ")));
}

// The commands that have a list of fields are those that may wait.
bool mayBeKept(const WorkRequest& request)
{
    const auto* one = std::get_if<CarRequest>(&request);
    return one == nullptr || std::ranges::all_of(one->commands, [](const CarCommand& command) {
               return std::visit([]<class C>(const C&) { return Described<C>; }, command);
           });
}

QString notKeptWords()
{
    return say(
        "The workshop's server is away. Work, readings, findings, photos, signatures, moves "
        "and checks that fail are kept here until it is back; this cannot be, and nothing "
        "was changed. A release, corrections, people, rights and rules wait for the server.");
}

QString keptUnseenWords()
{
    return say("The disk of this kiosk is full or broken. This is kept and goes to the server, but "
               "the wall cannot show it yet: do not enter it again. Make room and try again.");
}

QString correctionWaitsWords()
{
    return say(
        "The workshop's server is away. A correction waits until it is back: nothing that is "
        "entered here can be kept.");
}

QString perhapsDoneWords()
{
    return say("The workshop's server went away in the middle of this. Whether it was done is not "
               "known here, and it cannot be kept; look again when the server is back.");
}

int KeptTrouble::entries() const
{
    int count = 0;
    for (const Missing& one : missing)
        count += one.entries;
    return count;
}

Moment KeptTrouble::until() const
{
    Moment last;
    for (const Missing& one : missing)
        last = std::max(last, one.until);
    return last;
}

tl::expected<std::vector<KeptWork>, StoreError> worksOf(const WorkRequest& request, Ledger& ledger,
                                                        const std::set<CommandId>& kept)
{
    const auto site = ledger.site();
    if (!site)
        return tl::unexpected(site.error());
    std::vector<KeptWork> works;
    for (const Named& named : namedIn(request, *site)) {
        const auto car = ledger.car(named.car);
        if (!car)
            return tl::unexpected(car.error());
        KeptWork work;
        work.title = named.title;
        if (const Operation* operation = car->operation(named.operation)) {
            work = knownAs(*operation);
            work.title = operationTitle(operation->spec, operation->place, site->rules);
        }
        if (const Finding* finding = car->finding(named.finding)) {
            work = knownAs(*finding);
            work.title = capital(findingWords(finding->versions.front().data, site->rules));
        }
        work.car = named.car;
        work.operation = named.operation;
        work.finding = named.finding;
        work.stockNumber = car->identity.stockNumber;
        tl::expected<std::vector<CarEnvelope>, StoreError> history;
        if (!kept.empty())
            history = ledger.history(named.car);
        if (!history)
            return tl::unexpected(history.error());
        work.knownTo = car->seq - std::ranges::count_if(*history, [&](const CarEnvelope& entry) {
                           return kept.contains(entry.command);
                       });
        works.push_back(std::move(work));
    }
    return works;
}

qint64 knownTo(const KeptRequest& kept, const CarId& car)
{
    const auto it = std::ranges::find(kept.works, car, &KeptWork::car);
    return it == kept.works.end() ? 0 : it->knownTo;
}

tl::expected<std::optional<QString>, StoreError> sendKept(const KeptRequest& kept, Ledger& ledger,
                                                          const Catalogue& catalogue,
                                                          const std::set<CommandId>& ours)
{
    using Sent = std::optional<QString>;
    // What stands there already is not looked at again: its work may have gone on since.
    const auto known = ledger.isKnown(idOf(kept.asked));
    if (!known)
        return tl::unexpected(known.error());
    if (*known)
        return Sent();
    const auto asked = fitted(kept, ledger);
    if (!asked)
        return tl::unexpected(asked.error());
    if (!*asked)
        return Sent(strayedWords());
    const auto overtaken = overtakenWords(kept, **asked, ledger, ours);
    if (!overtaken)
        return tl::unexpected(overtaken.error());
    if (!overtaken->isEmpty())
        return isEndOfShift(kept.asked) ? Sent() : Sent(*overtaken);
    const StandingClock clock(kept.at);
    const auto timers = timersOf(kept, ledger, clock.steadyMs());
    if (!timers)
        return tl::unexpected(timers.error());
    Workshop workshop(ledger, clock, catalogue, *timers);
    const auto failure = std::visit(
        [&]<class R>(const R& request) -> std::optional<Failure> {
            const auto refused = [](const auto& result) {
                return result ? std::optional<Failure>() : std::optional<Failure>(result.error());
            };
            if constexpr (std::is_same_v<R, CarRequest>)
                return refused(workshop.run(request));
            else
                return refused(workshop.signTogether(request));
        },
        **asked);
    if (!failure)
        return Sent();
    if (const auto* error = std::get_if<StoreError>(&*failure);
        error != nullptr && error->kind != StoreErrorKind::Busy &&
        error->kind != StoreErrorKind::PhotoGone)
        return tl::unexpected(*error);
    // Another kiosk was quicker, and nobody asked for it by name.
    const auto* refusal = std::get_if<Refusal>(&*failure);
    if (refusal != nullptr && refusal->id == RefusalId::NotRunning && isEndOfShift(kept.asked))
        return Sent();
    return Sent(words(*failure));
}

} // namespace ramplight
