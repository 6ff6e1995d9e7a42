// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/overtaken.h"

#include "domain/checking.h"
#include "domain/oneof.h"
#include "domain/say.h"

#include <algorithm>

namespace ramplight {

namespace {

/// Some of what others did, and the car as it is.
struct Deeds
{
    const CarState& car;
    std::vector<CarEvent> events = {};

    template <class Event, class Is>
    [[nodiscard]] bool has(Is is) const
    {
        return std::ranges::any_of(events, [&](const CarEvent& event) {
            const auto* one = std::get_if<Event>(&event);
            return one != nullptr && is(*one);
        });
    }
    /// A timer that others started and that still runs; person null: anybody's.
    [[nodiscard]] bool hasTimer(OperationId id, PersonId person) const
    {
        const Operation* operation = car.operation(id);
        return operation != nullptr && has<WorkStarted>([&](const WorkStarted& started) {
                   return started.operation == id &&
                          (person.isNull() || started.person == person) &&
                          std::ranges::any_of(operation->segments, [&](const Segment& segment) {
                              return segment.running() && segment.id == started.segment;
                          });
               });
    }
    /// It is not the work any more that whoever signs it had before them.
    [[nodiscard]] bool hasChanged(OperationId id) const
    {
        const auto isOfIt = [&](const auto& event) { return event.operation == id; };
        return has<OperationSigned>(isOfIt) || has<OperationReopened>(isOfIt) ||
               has<OperationExtended>(isOfIt) || has<ReadingTaken>(isOfIt) ||
               has<ReadingCorrected>(isOfIt) || has<FigureSet>(isOfIt) ||
               has<FigureCorrected>(isOfIt) || hasTimer(id, {});
    }
    /// The same of work that it checks.
    [[nodiscard]] bool hasChangedBelow(OperationId id) const
    {
        const Operation* operation = car.operation(id);
        return operation != nullptr &&
               std::ranges::any_of(operation->restsOn,
                                   [&](OperationId below) { return hasChanged(below); });
    }
    /// It is a check that is to be made again, had it been made here: of what it checks, or of the
    /// whole car, something was opened.
    [[nodiscard]] bool hasVoided(OperationId id) const
    {
        const Operation* check = car.operation(id);
        if (check == nullptr)
            return false;
        const bool again = has<OperationReopened>([&](const OperationReopened& event) {
            const Operation* work = car.operation(event.operation);
            return event.operation != id && work != nullptr && isVoidedBy(check->spec, work->spec);
        });
        return again || (checksEverything(check->spec) &&
                         has<OperationOpened>([&](const OperationOpened& opened) {
                             return opened.operation != id &&
                                    opened.spec->secondPerson != SecondPerson::Check;
                         }));
    }
    [[nodiscard]] bool hasTyre(const PlaceId& place, bool tread, bool marking) const
    {
        return has<TyreRecorded>([&](const TyreRecorded& tyre) {
                   return tyre.place == place && (tyre.fitted || (tread && tyre.tread) ||
                                                  (marking && !tyre.marking.isEmpty()));
               }) ||
               (tread &&
                has<TreadRecorded>([&](const TreadRecorded& tyre) { return tyre.place == place; }));
    }
};

QString timerWords()
{
    return say("The timer that runs there now was started later than this one was stopped. Look at "
               "the times and correct them.");
}

QString measuredWords()
{
    return say("This was measured again later. Look at the car; measure it once more if that is "
               "wrong.");
}

QString workedOnWords()
{
    return say(
        "Others were at this work since, and nobody here could see what they did. Look at it "
        "again, then sign it.");
}

/// Each command that may be overtaken; empty: it was not.
class OvertakenBy
{
public:
    /// later: after it was asked for. unseen: what the kiosk did not know of, whenever that was.
    OvertakenBy(PersonId actor, const Deeds& later, const Deeds& unseen)
        : m_actor(actor)
        , m_later(later)
        , m_unseen(unseen)
    {
    }

    QString operator()(const car::PauseWork& c) const
    {
        return timer(c.operation, c.person.isNull() ? m_actor : c.person);
    }
    QString operator()(const car::HandOver& c) const { return timer(c.operation, m_actor); }
    // A check that fails stops whatever runs on it, at any time; a part does not.
    QString operator()(const car::BlockForPart& c) const { return timer(c.operation, {}); }
    QString operator()(const car::MoveCar&) const
    {
        return m_later.has<CarMoved>([](const CarMoved&) { return true; })
                   ? say("The car was moved again later. Look where it stands, and move it if that "
                         "is wrong.")
                   : QString();
    }
    // Who signs, signs what was there to be seen.
    QString operator()(const car::SignOff& c) const { return signedFor(c.operation); }
    QString operator()(const car::Countersign& c) const { return signedFor(c.operation); }
    QString operator()(const car::TakeReading& c) const
    {
        const bool again = m_later.has<ReadingTaken>([&](const ReadingTaken& reading) {
            return reading.operation == c.operation && reading.key == c.key &&
                   reading.place == c.place;
        });
        const bool reopened = m_later.has<OperationReopened>(
            [&](const OperationReopened& event) { return event.operation == c.operation; });
        return measured(again || reopened || m_later.hasChangedBelow(c.operation) ||
                        m_unseen.hasVoided(c.operation));
    }
    // One of work that was opened again since shows nothing of how it was done then.
    QString operator()(const car::AttachPhoto& c) const
    {
        const bool again = c.moment != PhotoMoment::Before &&
                           m_later.has<OperationReopened>([&](const OperationReopened& event) {
                               return event.operation == c.operation;
                           });
        return again ? say("This photo was taken before the work was opened again. Take another "
                           "one.")
                     : QString();
    }
    QString operator()(const car::RecordTread& c) const
    {
        return measured(m_later.hasTyre(c.place, true, false));
    }
    QString operator()(const car::RecordTyre& c) const
    {
        const bool marking = !c.dateCode.trimmed().isEmpty() || !c.size.trimmed().isEmpty() ||
                             c.loadIndex || !c.speedSymbol.trimmed().isEmpty();
        return measured(m_later.hasTyre(c.place, c.tread.has_value(), marking));
    }
    QString operator()(const car::RecordPaintDepth& c) const
    {
        return measured(m_later.has<PaintDepthRecorded>(
            [&](const PaintDepthRecorded& paint) { return paint.panel == c.panel; }));
    }
    QString operator()(const car::ReadOdometer&) const
    {
        return measured(m_later.has<OdometerRead>([](const OdometerRead&) { return true; }));
    }

private:
    [[nodiscard]] QString timer(OperationId operation, PersonId person) const
    {
        return m_later.hasTimer(operation, person) ? timerWords() : QString();
    }
    [[nodiscard]] QString signedFor(OperationId operation) const
    {
        return m_unseen.hasChanged(operation) || m_unseen.hasChangedBelow(operation) ||
                       m_unseen.hasVoided(operation)
                   ? workedOnWords()
                   : QString();
    }
    static QString measured(bool again) { return again ? measuredWords() : QString(); }

    PersonId m_actor;
    const Deeds& m_later;
    const Deeds& m_unseen;
};

template <class C>
constexpr bool mayBeOvertaken = std::is_invocable_v<const OvertakenBy&, const C&>;

bool isAsked(const CarCommand& command)
{
    return std::visit([]<class C>(const C&) { return mayBeOvertaken<C>; }, command);
}

/// What is asked of each car.
std::vector<CarRequest> requestsOf(const WorkRequest& asked)
{
    if (const auto* one = std::get_if<CarRequest>(&asked))
        return {*one};
    std::vector<CarRequest> all;
    const auto& together = std::get<TogetherRequest>(asked);
    for (const TogetherRequest::Item& item : together.items) {
        CarRequest one{together.id, together.actor, item.car, {}, false};
        for (car::TakeReading reading : item.readings) {
            reading.operation = item.operation;
            one.commands.emplace_back(std::move(reading));
        }
        one.commands.emplace_back(car::SignOff{item.operation, item.note});
        all.push_back(std::move(one));
    }
    return all;
}

tl::expected<QString, StoreError> overtakenOn(const CarRequest& asked, const KeptRequest& kept,
                                              Ledger& ledger, const std::set<CommandId>& ours)
{
    if (std::ranges::none_of(asked.commands, isAsked))
        return QString();
    const auto car = ledger.car(asked.car);
    if (!car)
        return tl::unexpected(car.error());
    auto history = ledger.history(asked.car);
    if (!history)
        return tl::unexpected(history.error());
    const qint64 known = knownTo(kept, asked.car);
    Deeds later{*car};
    Deeds unseen{*car};
    for (const CarEnvelope& envelope : *history) {
        if (ours.contains(envelope.command))
            continue;
        const bool isLater = envelope.at > kept.at;
        if (isLater)
            later.events.push_back(envelope.event);
        if (known > 0 ? envelope.seq > known : isLater)
            unseen.events.push_back(envelope.event);
    }
    const OvertakenBy overtaken(asked.actor, later, unseen);
    for (const CarCommand& command : asked.commands) {
        QString words = std::visit(
            [&]<class C>(const C& given) {
                if constexpr (mayBeOvertaken<C>)
                    return overtaken(given);
                else
                    return QString();
            },
            command);
        if (!words.isEmpty())
            return words;
    }
    return QString();
}

} // namespace

tl::expected<QString, StoreError> overtakenWords(const KeptRequest& kept, const WorkRequest& asked,
                                                 Ledger& ledger, const std::set<CommandId>& ours)
{
    for (const CarRequest& one : requestsOf(asked))
        if (auto words = overtakenOn(one, kept, ledger, ours); !words || !words->isEmpty())
            return words;
    return QString();
}

} // namespace ramplight
