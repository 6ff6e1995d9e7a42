// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// How what is kept is written down, and read again.
#include "domain/keptrequest.h"

#include <QJsonDocument>

namespace ramplight {
namespace {

QJsonObject commandJson(const CarCommand& command)
{
    return std::visit(
        []<class C>(const C& given) {
            QJsonObject json;
            if constexpr (Described<C>) {
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
        if constexpr (Described<C>) {
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

} // namespace

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

} // namespace ramplight
