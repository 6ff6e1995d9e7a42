// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/keptrequest.h"

#include "domain/say.h"
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

/// Words for what has no number yet; empty: the command is about work that has one.
QString titleOfNew(const CarCommand& command, const HouseRules& rules)
{
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
std::vector<Named> namedIn(const WorkRequest& request, const HouseRules& rules)
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
            add({one.car, operation, {}, titleOfNew(command, rules)});
        if (ofFinding)
            add({one.car, {}, photo->finding});
        if (const auto* fail = std::get_if<car::FailCheck>(&command);
            fail != nullptr && !fail->work.isNull())
            add({one.car, fail->work});
        if (const auto* found = std::get_if<car::RecordFinding>(&command);
            found != nullptr && !found->during.isNull())
            add({one.car, found->during});
    }
    return named;
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
    return say("cautions read");
}

class StandingClock : public Clock
{
public:
    explicit StandingClock(Moment at)
        : m_at(at)
    {
    }
    [[nodiscard]] Moment now() const override { return m_at; }

private:
    Moment m_at;
};

/// Whether a command stops a timer that was started later than it was asked for: other work, of
/// another morning. A check that fails stops whatever runs on it, at any time.
bool stopsLater(const CarCommand& command, PersonId actor, const CarState& car, Moment asked)
{
    const auto startedLater = [&](OperationId id, PersonId person) {
        const Operation* operation = car.operation(id);
        return operation != nullptr &&
               std::ranges::any_of(operation->segments, [&](const Segment& segment) {
                   return segment.running() && segment.start > asked &&
                          (person.isNull() || segment.person == person);
               });
    };
    if (const auto* pause = std::get_if<car::PauseWork>(&command))
        return startedLater(pause->operation, pause->person.isNull() ? actor : pause->person);
    if (const auto* handOver = std::get_if<car::HandOver>(&command))
        return startedLater(handOver->operation, actor);
    if (const auto* block = std::get_if<car::BlockForPart>(&command))
        return startedLater(block->operation, {});
    return false;
}

bool mayStop(const CarCommand& command)
{
    return std::holds_alternative<car::PauseWork>(command) ||
           std::holds_alternative<car::HandOver>(command) ||
           std::holds_alternative<car::BlockForPart>(command);
}

/// Errors: the ledger's.
tl::expected<bool, StoreError> stopsLaterWork(const KeptRequest& kept, Ledger& ledger)
{
    const auto* asked = std::get_if<CarRequest>(&kept.asked);
    if (asked == nullptr || std::ranges::none_of(asked->commands, mayStop))
        return false;
    const auto car = ledger.car(asked->car);
    if (!car)
        return tl::unexpected(car.error());
    return std::ranges::any_of(asked->commands, [&](const CarCommand& command) {
        return stopsLater(command, asked->actor, *car, kept.at);
    });
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

/// The number that a finding has in this state of its car; null: it is not in it.
FindingId numberIn(const CarState& car, const KeptWork& found)
{
    const auto isIt = [&](const Finding& finding) {
        const FindingVersion& first = finding.versions.front();
        return first.data.place == found.place && first.data.condition == found.condition &&
               first.by == found.foundBy;
    };
    if (const Finding* same = car.finding(found.finding); same != nullptr && isIt(*same))
        return found.finding;
    FindingId number;
    for (const auto& [id, finding] : car.findings)
        if (isIt(finding))
            number = id;
    return number;
}

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
    if (auto* photo = std::get_if<car::AttachPhoto>(&command)) {
        const auto then = std::ranges::find_if(kept.works, [&](const KeptWork& work) {
            return !work.finding.isNull() && work.finding == photo->finding;
        });
        if (then != kept.works.end()) {
            photo->finding = numberIn(car, *then);
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

QString laterWorkWords()
{
    return say("The timer that runs there now was started later than this one was stopped. Look at "
               "the times and correct them.");
}

QString strayedWords()
{
    return say("The car's work was numbered anew meanwhile, so it is not certain which work this "
               "was for. Look at the car and enter it again.");
}

} // namespace

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
    return say("The workshop's server is away. Work, readings, findings, photos, signatures and "
               "checks that fail are kept here until it is back; this cannot be, and nothing was "
               "changed. A release, corrections, people, rights and rules wait for the server.");
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

tl::expected<std::vector<KeptWork>, StoreError> worksOf(const WorkRequest& request, Ledger& ledger)
{
    const auto site = ledger.site();
    if (!site)
        return tl::unexpected(site.error());
    std::vector<KeptWork> works;
    for (const Named& named : namedIn(request, site->rules)) {
        const auto car = ledger.car(named.car);
        if (!car)
            return tl::unexpected(car.error());
        KeptWork work{named.car, named.operation, car->identity.stockNumber, named.title, {}, {}};
        if (const Operation* operation = car->operation(named.operation)) {
            work.title = operationTitle(operation->spec, operation->place, site->rules);
            work.kind = operation->spec->id;
            work.place = operation->place;
        }
        work.finding = named.finding;
        if (const Finding* finding = car->finding(named.finding)) {
            const FindingVersion& first = finding->versions.front();
            work.title = capital(findingWords(first.data, site->rules));
            work.place = first.data.place;
            work.condition = first.data.condition;
            work.foundBy = first.by;
        }
        works.push_back(std::move(work));
    }
    return works;
}

tl::expected<std::optional<QString>, StoreError> sendKept(const KeptRequest& kept, Ledger& ledger,
                                                          const Catalogue& catalogue)
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
    const auto isLater = stopsLaterWork(kept, ledger);
    if (!isLater)
        return tl::unexpected(isLater.error());
    if (*isLater)
        return isEndOfShift(kept.asked) ? Sent() : Sent(laterWorkWords());
    const StandingClock clock(kept.at);
    Workshop workshop(ledger, clock, catalogue);
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
