// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/keptrequest.h"

#include "domain/say.h"
#include "domain/words.h"

#include <QJsonDocument>

#include <algorithm>
#include <set>
#include <type_traits>

namespace ramplight {
namespace {

/// The commands that have a list of fields are those that may wait.
template <class C>
constexpr bool waits = Described<C>;

QJsonObject commandJson(const CarCommand& command)
{
    return std::visit(
        []<class C>(const C& given) {
            QJsonObject json;
            if constexpr (waits<C>) {
                json = toJson(given);
                json.insert(QLatin1StringView("type"), QLatin1StringView(C::type));
            }
            return json;
        },
        command);
}

/// Tries one type of command after the other.
template <std::size_t i = 0>
tl::expected<CarCommand, QString> commandFrom(const QJsonObject& json)
{
    if constexpr (i == CarCommand::kinds) {
        return tl::unexpected(QStringLiteral("\"%1\" is no command that can wait")
                                  .arg(json.value(QLatin1StringView("type")).toString()));
    } else {
        using C = CarCommand::Kind<i>;
        if constexpr (waits<C>) {
            if (json.value(QLatin1StringView("type")) == QLatin1StringView(C::type)) {
                C command{};
                if (const CodecError error = fromJson(json, command); !error.isEmpty())
                    return tl::unexpected(error.words());
                return CarCommand(std::move(command));
            }
        }
        return commandFrom<i + 1>(json);
    }
}

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

/// Every car and work that it names, each once.
std::set<std::pair<CarId, OperationId>> namedIn(const WorkRequest& request)
{
    std::set<std::pair<CarId, OperationId>> named;
    if (const auto* one = std::get_if<CarRequest>(&request)) {
        for (const CarCommand& command : one->commands)
            named.emplace(one->car, operationOf(command));
    } else {
        for (const TogetherRequest::Item& item : std::get<TogetherRequest>(request).items)
            named.emplace(item.car, item.operation);
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

/// It would stop a timer that was started later than it was asked for: other work, of another
/// morning. Errors: the ledger's.
tl::expected<bool, StoreError> stopsLaterWork(const KeptRequest& kept, Ledger& ledger)
{
    const auto* asked = std::get_if<CarRequest>(&kept.asked);
    if (asked == nullptr)
        return false;
    for (const CarCommand& command : asked->commands) {
        const auto* pause = std::get_if<car::PauseWork>(&command);
        if (pause == nullptr)
            continue;
        const auto car = ledger.car(asked->car);
        if (!car)
            return tl::unexpected(car.error());
        const PersonId person = pause->person.isNull() ? asked->actor : pause->person;
        const Operation* operation = car->operation(pause->operation);
        if (operation != nullptr &&
            std::ranges::any_of(operation->segments, [&](const Segment& segment) {
                return segment.running() && segment.person == person && segment.start > kept.at;
            }))
            return true;
    }
    return false;
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
    QString all = deeds.join(QStringLiteral(", "));
    if (!all.isEmpty())
        all.front() = all.front().toUpper();
    return all;
}

bool mayBeKept(const WorkRequest& request)
{
    const auto* one = std::get_if<CarRequest>(&request);
    return one == nullptr || std::ranges::all_of(one->commands, [](const CarCommand& command) {
               return std::visit([]<class C>(const C&) { return waits<C>; }, command);
           });
}

QString notKeptWords()
{
    return say("The workshop's server is away. Work, readings, photos and signatures are kept "
               "here until it is back; this cannot be, and nothing was changed. A release, people, "
               "rights and rules wait for the server.");
}

QString perhapsDoneWords()
{
    return say("The workshop's server went away in the middle of this. Whether it was done is not "
               "known here, and it cannot be kept; look again when the server is back.");
}

QByteArray written(const WorkRequest& request)
{
    QJsonObject json;
    json.insert(QLatin1StringView("id"), idOf(request).text);
    json.insert(QLatin1StringView("actor"), actorOf(request).value);
    if (const auto* one = std::get_if<CarRequest>(&request)) {
        QJsonArray commands;
        for (const CarCommand& command : one->commands)
            commands.append(commandJson(command));
        json.insert(QLatin1StringView("car"), one->car.text);
        json.insert(QLatin1StringView("pinFresh"), one->pinFresh);
        json.insert(QLatin1StringView("commands"), commands);
    } else {
        json.insert(QLatin1StringView("together"),
                    codec::write(std::get<TogetherRequest>(request).items));
    }
    return QJsonDocument(json).toJson(QJsonDocument::Compact);
}

tl::expected<WorkRequest, QString> readWorkRequest(const QByteArray& text)
{
    const QJsonObject json = QJsonDocument::fromJson(text).object();
    const CommandId id{json.value(QLatin1StringView("id")).toString()};
    const PersonId actor{json.value(QLatin1StringView("actor")).toInt()};
    if (id.isEmpty())
        return tl::unexpected(QStringLiteral("It has no id"));
    if (const QJsonValue items = json.value(QLatin1StringView("together")); !items.isUndefined()) {
        TogetherRequest together{id, actor, {}};
        if (const CodecError error = codec::read(items, together.items, QStringLiteral("together"));
            !error.isEmpty())
            return tl::unexpected(error.words());
        return WorkRequest(std::move(together));
    }
    CarRequest request{id,
                       actor,
                       {json.value(QLatin1StringView("car")).toString()},
                       {},
                       json.value(QLatin1StringView("pinFresh")).toBool()};
    for (const QJsonValue& one : json.value(QLatin1StringView("commands")).toArray()) {
        auto command = commandFrom(one.toObject());
        if (!command)
            return tl::unexpected(command.error());
        request.commands.push_back(std::move(*command));
    }
    return WorkRequest(std::move(request));
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

QByteArray written(const KeptTrouble& trouble)
{
    const QJsonObject json{{QLatin1StringView("trouble"), toJson(trouble)}};
    return QJsonDocument(json).toJson(QJsonDocument::Compact);
}

std::optional<KeptTrouble> readKeptTrouble(const QByteArray& text)
{
    const QJsonValue json =
        QJsonDocument::fromJson(text).object().value(QLatin1StringView("trouble"));
    KeptTrouble trouble;
    if (!json.isObject() || !fromJson(json.toObject(), trouble).isEmpty())
        return {};
    return trouble;
}

QByteArray written(const std::vector<KeptWork>& works)
{
    return QJsonDocument(codec::write(works).toArray()).toJson(QJsonDocument::Compact);
}

tl::expected<std::vector<KeptWork>, QString> readKeptWorks(const QByteArray& text)
{
    std::vector<KeptWork> works;
    if (const CodecError error =
            codec::read(QJsonValue(QJsonDocument::fromJson(text).array()), works, {});
        !error.isEmpty())
        return tl::unexpected(error.words());
    return works;
}

tl::expected<std::vector<KeptWork>, StoreError> worksOf(const WorkRequest& request, Ledger& ledger)
{
    const auto site = ledger.site();
    if (!site)
        return tl::unexpected(site.error());
    std::vector<KeptWork> works;
    for (const auto& [id, number] : namedIn(request)) {
        const auto car = ledger.car(id);
        if (!car)
            return tl::unexpected(car.error());
        KeptWork work{id, number, car->identity.stockNumber, {}, {}, {}};
        if (const Operation* operation = car->operation(number)) {
            work.title = operationTitle(operation->spec, operation->place, site->rules);
            work.kind = operation->spec->id;
            work.place = operation->place;
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
    const auto now = worksOf(kept.asked, ledger);
    if (!now)
        return tl::unexpected(now.error());
    const bool strayed =
        !std::ranges::equal(kept.works, *now, [](const KeptWork& then, const KeptWork& is) {
            return then.car == is.car && then.operation == is.operation && then.kind == is.kind &&
                   then.place == is.place;
        });
    if (strayed)
        return Sent(strayedWords());
    const auto isLater = stopsLaterWork(kept, ledger);
    if (!isLater)
        return tl::unexpected(isLater.error());
    if (*isLater)
        return isEndOfShift(kept.asked) ? Sent() : Sent(laterWorkWords());
    const StandingClock clock(kept.at);
    Workshop workshop(ledger, clock, catalogue);
    const auto failure = std::visit(
        [&]<class R>(const R& asked) -> std::optional<Failure> {
            const auto refused = [](const auto& result) {
                return result ? std::optional<Failure>() : std::optional<Failure>(result.error());
            };
            if constexpr (std::is_same_v<R, CarRequest>)
                return refused(workshop.run(asked));
            else
                return refused(workshop.signTogether(asked));
        },
        kept.asked);
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
