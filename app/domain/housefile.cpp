// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/housefile.h"

#include "domain/housecatalogue.h"
#include "domain/wholejson.h"

#include <QJsonDocument>

#include <algorithm>

namespace ramplight {

namespace {

/// Ids stay in the house.
template <class T>
QJsonObject withoutId(const T& value)
{
    QJsonObject object = wholeJson(value).toObject();
    object.remove(QLatin1StringView("id"));
    return object;
}

template <class T>
void unknownFields(const QJsonObject& object, const QString& where, QStringList& faults)
{
    QStringList known;
    T::fields([&](const auto& f) { known.append(QString::fromLatin1(f.name)); });
    for (const QString& key : object.keys())
        if (!known.contains(key) || key == QLatin1String("id"))
            faults.append(QStringLiteral("%1%2: there is no such field").arg(where, key));
}

template <class T>
void unknownInList(const QJsonObject& head, const char* list, QStringList& faults)
{
    int at = 0;
    for (const QJsonValue& item : head.value(QLatin1StringView(list)).toArray())
        unknownFields<T>(item.toObject(),
                         QStringLiteral("%1, entry %2, ").arg(QLatin1StringView(list)).arg(++at),
                         faults);
}

/// What a file says twice of one thing could not both be so.
template <class T, class Key>
void saidTwice(const std::vector<T>& items, Key T::*key, const char* list, QStringList& faults)
{
    for (auto item = items.begin(); item != items.end(); ++item)
        if (std::ranges::find(items.begin(), item, (*item).*key, key) != item)
            faults.append(QStringLiteral("%1, entry %2: it is there twice")
                              .arg(QLatin1StringView(list))
                              .arg(item - items.begin() + 1));
}

/// Limits that are only named, in a value that may hold some at any depth.
QJsonValue byName(const QJsonValue& value)
{
    if (value.isArray()) {
        QJsonArray items;
        for (const QJsonValue& item : value.toArray())
            items.append(byName(item));
        return items;
    }
    if (!value.isObject())
        return value;
    QJsonObject object = value.toObject();
    constexpr QLatin1StringView readings("readings");
    constexpr QLatin1StringView limits("limits");
    if (object.contains(readings))
        object[readings] = byName(object.value(readings));
    if (object.contains(limits)) {
        QJsonArray bare;
        for (const QJsonValue& limit : object.value(limits).toArray()) {
            const QString name = limit[QLatin1StringView("named")].toString();
            bare.append(name.isEmpty() ? limit
                                       : QJsonValue(QJsonObject{{QStringLiteral("named"), name}}));
        }
        object[limits] = bare;
    }
    return object;
}

} // namespace

QByteArray writeCatalogue(const Catalogue& catalogue)
{
    QJsonObject head = wholeJson(catalogue).toObject();
    const QString operations = QStringLiteral("operations");
    head[operations] = byName(head.value(operations));
    return QJsonDocument(head).toJson(QJsonDocument::Indented);
}

QByteArray writeHouse(const SiteState& site)
{
    QJsonArray bays;
    for (const auto& [id, bay] : site.bays)
        bays.append(withoutId(bay));
    QJsonArray tools;
    for (const auto& [id, tool] : site.tools)
        tools.append(withoutId(tool));
    QJsonArray adjustments;
    for (const auto& [operation, own] : site.adjustments)
        adjustments.append(wholeJson(own));
    const QJsonObject head{{QStringLiteral("format"), HouseFile{}.format},
                           {QStringLiteral("rules"), wholeJson(site.rules)},
                           {QStringLiteral("bays"), bays},
                           {QStringLiteral("tools"), tools},
                           {QStringLiteral("adjustments"), adjustments}};
    return QJsonDocument(head).toJson(QJsonDocument::Indented);
}

tl::expected<HouseFile, QStringList> readHouse(const QByteArray& json, const SiteState& site)
{
    QJsonParseError error;
    const QJsonDocument document = QJsonDocument::fromJson(json, &error);
    if (error.error != QJsonParseError::NoError)
        return tl::unexpected(QStringList{QStringLiteral("line %1: not JSON: %2")
                                              .arg(json.left(error.offset).count('\n') + 1)
                                              .arg(error.errorString())});
    const QJsonObject head = document.object();
    QStringList faults;
    unknownFields<HouseFile>(head, {}, faults);
    unknownFields<HouseRules>(head.value(QLatin1StringView("rules")).toObject(),
                              QStringLiteral("rules, "), faults);
    unknownInList<Bay>(head, "bays", faults);
    unknownInList<Tool>(head, "tools", faults);
    unknownInList<OperationAdjustment>(head, "adjustments", faults);
    HouseFile file;
    file.rules = site.rules;
    for (const auto& [operation, own] : site.adjustments)
        file.adjustments.push_back(own);
    if (const CodecError wrong = fromJson(head, file); !wrong.isEmpty())
        faults.append(wrong.words());
    saidTwice(file.bays, &Bay::number, "bays", faults);
    saidTwice(file.tools, &Tool::number, "tools", faults);
    saidTwice(file.adjustments, &OperationAdjustment::operation, "adjustments", faults);
    if (head.value(QLatin1StringView("format")).toInt() != HouseFile{}.format)
        faults.append(QStringLiteral("format: 1 was expected"));
    if (!faults.isEmpty())
        return tl::unexpected(faults);
    return file;
}

std::vector<SiteCommand> houseCommands(const HouseFile& file, const SiteState& site)
{
    std::vector<SiteCommand> commands{site::SetHouseRules{file.rules}};
    for (Bay bay : file.bays) {
        const auto known = std::ranges::find_if(
            site.bays, [&](const auto& entry) { return entry.second.number == bay.number; });
        bay.id = known == site.bays.end() ? BayId{} : known->first;
        if (known == site.bays.end() || bay != known->second)
            commands.emplace_back(site::SetBay{bay});
    }
    for (Tool tool : file.tools) {
        const auto known = std::ranges::find_if(
            site.tools, [&](const auto& entry) { return entry.second.number == tool.number; });
        tool.id = known == site.tools.end() ? ToolId{} : known->first;
        if (known == site.tools.end() || tool != known->second)
            commands.emplace_back(site::SetTool{tool});
    }
    for (const OperationAdjustment& own : file.adjustments)
        commands.emplace_back(site::AdjustOperation{own});
    for (const auto& [operation, own] : site.adjustments)
        if (std::ranges::find(file.adjustments, operation, &OperationAdjustment::operation) ==
            file.adjustments.end()) {
            OperationAdjustment none;
            none.operation = operation;
            commands.emplace_back(site::AdjustOperation{none});
        }
    return commands;
}

tl::expected<void, Failure> takeHouse(Workshop& workshop, PersonId actor, const CommandId& command,
                                      const HouseFile& file)
{
    const auto site = workshop.ledger().site();
    if (!site)
        return tl::unexpected<Failure>(site.error());
    const std::vector<SiteCommand> commands = houseCommands(file, *site);
    SiteState copy = *site;
    SiteContext context;
    context.actor = actor;
    context.now = workshop.now();
    context.catalogue = &baseCatalogue(workshop.catalogue(), *site);
    for (const SiteCommand& asked : commands) {
        const auto events = decide(copy, context, asked);
        if (!events)
            return tl::unexpected<Failure>(events.error());
        for (const SiteEvent& event : *events)
            apply(copy, {copy.seq + 1, context.now, actor, {}, event});
    }
    int part = 0;
    for (const SiteCommand& asked : commands) {
        const CommandId id{QStringLiteral("%1/%2").arg(command.text).arg(++part)};
        if (auto set = workshop.run(SiteRequest{id, actor, asked, {}}); !set)
            return tl::unexpected(set.error());
    }
    return {};
}

} // namespace ramplight
