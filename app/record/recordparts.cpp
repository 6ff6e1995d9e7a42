// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordparts.h"

#include "domain/say.h"

#include <QCryptographicHash>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>

namespace ramplight {

namespace {

constexpr qsizetype hashDigits = 16;

QString hashOf(const QJsonValue& value)
{
    const QByteArray json =
        QJsonDocument(QJsonObject{{QStringLiteral("v"), value}}).toJson(QJsonDocument::Compact);
    return QString::fromLatin1(QCryptographicHash::hash(json, QCryptographicHash::Sha256).toHex())
        .left(hashDigits);
}

/// In the order in which a reader meets them. What is no part of its own is left out: the entry's
/// number, the moment, the car, whose differences are told on their own.
const std::vector<std::pair<QString, const char*>>& titles()
{
    static const std::vector<std::pair<QString, const char*>> all{
        {QStringLiteral("identity"), QT_TRANSLATE_NOOP("ramplight", "the car's identity")},
        {QStringLiteral("facts"), QT_TRANSLATE_NOOP("ramplight", "the facts on arrival")},
        {QStringLiteral("arrivedAt"), QT_TRANSLATE_NOOP("ramplight", "when it came in")},
        {QStringLiteral("promised"), QT_TRANSLATE_NOOP("ramplight", "the promised day")},
        {QStringLiteral("status"), QT_TRANSLATE_NOOP("ramplight", "whether it is released")},
        {QStringLiteral("released"), QT_TRANSLATE_NOOP("ramplight", "who released it, and when")},
        {QStringLiteral("heldAgainWhy"), QT_TRANSLATE_NOOP("ramplight", "why it was held again")},
        {QStringLiteral("left"), QT_TRANSLATE_NOOP("ramplight", "how it left the workshop")},
        {QStringLiteral("leftWhy"), QT_TRANSLATE_NOOP("ramplight", "why it left the workshop")},
        {QStringLiteral("holds"), QT_TRANSLATE_NOOP("ramplight", "what holds it")},
        {QStringLiteral("treads"), QT_TRANSLATE_NOOP("ramplight", "tread depths")},
        {QStringLiteral("tyres"), QT_TRANSLATE_NOOP("ramplight", "what stands on the tyres")},
        {QStringLiteral("paint"), QT_TRANSLATE_NOOP("ramplight", "paint depths")},
        {QStringLiteral("odometer"), QT_TRANSLATE_NOOP("ramplight", "odometer readings")},
        {QStringLiteral("sound"), QT_TRANSLATE_NOOP("ramplight", "what is in good order")},
        {QStringLiteral("notLookedAt"), QT_TRANSLATE_NOOP("ramplight", "what nobody looked at")},
        {QStringLiteral("steps"), QT_TRANSLATE_NOOP("ramplight", "its way through the workshop")},
        {QStringLiteral("photos"), QT_TRANSLATE_NOOP("ramplight", "photos of the car")},
    };
    return all;
}

/// "findings/3" -> "finding 3: near side sill, corrosion"
QString titleOf(const QString& part, const RecordModel& model)
{
    for (const auto& [key, title] : titles())
        if (part == key)
            return say(title);
    const QString number = part.section(QLatin1Char('/'), 1);
    if (part.startsWith(QLatin1String("findings/"))) {
        const QString name = say("finding %1").arg(number);
        for (const RecordFinding& finding : model.findings)
            if (QString::number(finding.id.value) == number)
                return QStringLiteral("%1 (%2)").arg(name, finding.now().words);
        return name;
    }
    for (const RecordOperation& operation : model.operations)
        if (QString::number(operation.id.value) == number)
            return say("the work “%1”").arg(operation.title);
    return say("work number %1").arg(number);
}

} // namespace

std::vector<StampPart> partsOf(const RecordModel& model)
{
    const QJsonObject json = toJson(model);
    std::vector<StampPart> parts;
    for (const auto& [key, title] : titles())
        if (json.contains(key))
            parts.push_back({key, hashOf(json.value(key))});
    for (const QString& list : {QStringLiteral("findings"), QStringLiteral("operations")})
        for (const QJsonValue& item : json.value(list).toArray())
            parts.push_back(
                {QStringLiteral("%1/%2").arg(list).arg(item[QLatin1String("id")].toInteger()),
                 hashOf(item)});
    return parts;
}

RecordStamp stampOf(const RecordModel& model)
{
    return {model.car.text, model.identity.stockNumber,
            model.seq,      model.headHash,
            model.digest(), model.madeAt,
            partsOf(model)};
}

QStringList differences(const std::vector<StampPart>& before, const RecordModel& now)
{
    if (before.empty())
        return {};
    QStringList words;
    const std::vector<StampPart> after = partsOf(now);
    for (const StampPart& part : after) {
        const auto was = std::ranges::find(before, part.part, &StampPart::part);
        if (was == before.end())
            words.append(say("%1 (new)").arg(titleOf(part.part, now)));
        else if (was->hash != part.hash)
            words.append(titleOf(part.part, now));
    }
    for (const StampPart& part : before)
        if (std::ranges::find(after, part.part, &StampPart::part) == after.end())
            words.append(say("%1 (no longer)").arg(titleOf(part.part, now)));
    return words;
}

} // namespace ramplight
