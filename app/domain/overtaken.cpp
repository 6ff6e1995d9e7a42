// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/overtaken.h"

#include "domain/oneof.h"
#include "domain/say.h"

#include <algorithm>

namespace ramplight {

namespace {

/// What others did after a moment, and the car as it is.
struct Since
{
    const CarState& car;
    std::vector<CarEvent> events;

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

/// Each command that may be overtaken; empty: it was not.
class OvertakenBy
{
public:
    OvertakenBy(PersonId actor, const Since& since)
        : m_actor(actor)
        , m_since(since)
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
        return m_since.has<CarMoved>([](const CarMoved&) { return true; })
                   ? say("The car was moved again later. Look where it stands, and move it if that "
                         "is wrong.")
                   : QString();
    }
    QString operator()(const car::RecordTread& c) const
    {
        return measured(m_since.hasTyre(c.place, true, false));
    }
    QString operator()(const car::RecordTyre& c) const
    {
        const bool marking = !c.dateCode.trimmed().isEmpty() || !c.size.trimmed().isEmpty() ||
                             c.loadIndex || !c.speedSymbol.trimmed().isEmpty();
        return measured(m_since.hasTyre(c.place, c.tread.has_value(), marking));
    }
    QString operator()(const car::RecordPaintDepth& c) const
    {
        return measured(m_since.has<PaintDepthRecorded>(
            [&](const PaintDepthRecorded& paint) { return paint.panel == c.panel; }));
    }
    QString operator()(const car::ReadOdometer&) const
    {
        return measured(m_since.has<OdometerRead>([](const OdometerRead&) { return true; }));
    }

private:
    [[nodiscard]] QString timer(OperationId operation, PersonId person) const
    {
        return m_since.hasTimer(operation, person) ? timerWords() : QString();
    }
    static QString measured(bool again) { return again ? measuredWords() : QString(); }

    PersonId m_actor;
    const Since& m_since;
};

template <class C>
constexpr bool mayBeOvertaken = std::is_invocable_v<const OvertakenBy&, const C&>;

bool isAsked(const CarCommand& command)
{
    return std::visit([]<class C>(const C&) { return mayBeOvertaken<C>; }, command);
}

} // namespace

tl::expected<QString, StoreError> overtakenWords(const KeptRequest& kept, Ledger& ledger,
                                                 const std::set<CommandId>& ours)
{
    const auto* asked = std::get_if<CarRequest>(&kept.asked);
    if (asked == nullptr || std::ranges::none_of(asked->commands, isAsked))
        return QString();
    const auto car = ledger.car(asked->car);
    if (!car)
        return tl::unexpected(car.error());
    auto history = ledger.history(asked->car);
    if (!history)
        return tl::unexpected(history.error());
    Since since{*car, {}};
    for (CarEnvelope& envelope : *history)
        if (envelope.at > kept.at && !ours.contains(envelope.command))
            since.events.push_back(std::move(envelope.event));
    const OvertakenBy overtaken(asked->actor, since);
    for (const CarCommand& command : asked->commands) {
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

} // namespace ramplight
