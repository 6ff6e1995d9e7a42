// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/catalogue.h"
#include "domain/cataloguechecks.h"
#include "domain/codec.h"
#include "domain/housecatalogue.h"

#include <QCryptographicHash>
#include <QJsonDocument>

#include <algorithm>

namespace ramplight {

OperationSpec::OperationSpec() = default;
OperationSpec::OperationSpec(const OperationSpec& other) = default;
OperationSpec::OperationSpec(OperationSpec&& other) noexcept = default;
OperationSpec& OperationSpec::operator=(const OperationSpec& other) = default;
OperationSpec& OperationSpec::operator=(OperationSpec&& other) noexcept = default;
OperationSpec::~OperationSpec() = default;

Catalogue::Catalogue() = default;
Catalogue::Catalogue(const Catalogue& other) = default;
Catalogue::Catalogue(Catalogue&& other) noexcept = default;
Catalogue& Catalogue::operator=(const Catalogue& other) = default;
Catalogue& Catalogue::operator=(Catalogue&& other) noexcept = default;
Catalogue::~Catalogue() = default;

namespace {

/// Keys that no struct has: most often a slip of the pen that would silently mean a default.
template <class T>
void unknownKeys(const QJsonValue& json, const QString& path, QStringList& faults)
{
    if constexpr (codec::IsOptional<T>::value) {
        unknownKeys<typename T::value_type>(json, path, faults);
    } else if constexpr (codec::IsVector<T>::value) {
        const QJsonArray array = json.toArray();
        for (qsizetype i = 0; i < array.size(); ++i)
            unknownKeys<typename T::value_type>(array.at(i),
                                                QStringLiteral("%1[%2]").arg(path).arg(i), faults);
    } else if constexpr (Described<T>) {
        const QJsonObject object = json.toObject();
        const QString dot = path.isEmpty() ? QString() : path + QLatin1Char('.');
        QStringList known;
        T::fields([&](const auto& f) {
            known.append(QLatin1StringView(f.name));
            unknownKeys<std::decay_t<decltype(std::declval<T>().*(f.member))>>(
                object.value(QLatin1StringView(f.name)), dot + QLatin1StringView(f.name), faults);
        });
        for (const QString& key : object.keys())
            if (!known.contains(key))
                faults.append(QStringLiteral("%1: this field is not known").arg(dot + key));
    }
}

/// A default owner must never stand in for a forgotten one.
void missingOwners(const QJsonObject& operation, QStringList& faults)
{
    const QJsonArray readings = operation.value(QLatin1StringView("readings")).toArray();
    for (qsizetype i = 0; i < readings.size(); ++i) {
        const QJsonArray limits =
            readings.at(i).toObject().value(QLatin1StringView("limits")).toArray();
        for (qsizetype j = 0; j < limits.size(); ++j)
            if (const QJsonObject limit = limits.at(j).toObject();
                !limit.contains(QLatin1StringView("named")) &&
                !limit.contains(QLatin1StringView("owner")))
                faults.append(QStringLiteral("readings[%1].limits[%2].owner: who set this limit "
                                             "was expected")
                                  .arg(i)
                                  .arg(j));
    }
}

void missingOwners(const QJsonArray& limits, const QString& where, QStringList& faults)
{
    for (const QJsonValue& limit : limits)
        if (!limit.toObject().contains(QLatin1StringView("owner")))
            faults.append(
                QStringLiteral("%1, limit %2, owner: who set this limit was expected")
                    .arg(where, limit.toObject().value(QLatin1StringView("name")).toString()));
}

/// Reads each item by itself, so that one bad item does not hide the next.
template <class T>
std::vector<T> readItems(const QJsonObject& root, const char* list, const char* noun,
                         const char* nameKey, QStringList& faults)
{
    std::vector<T> items;
    const QJsonValue value = root.value(QLatin1StringView(list));
    if (!value.isUndefined() && !value.isArray()) {
        faults.append(
            QStringLiteral("catalogue, %1: a list was expected").arg(QLatin1StringView(list)));
        return items;
    }
    const QJsonArray array = value.toArray();
    for (qsizetype i = 0; i < array.size(); ++i) {
        const QJsonObject object = array.at(i).toObject();
        QString name = object.value(QLatin1StringView(nameKey)).toString();
        if (name.isEmpty())
            name = QStringLiteral("number %1").arg(i + 1);
        const QString where = QStringLiteral("%1 %2").arg(QLatin1StringView(noun), name);
        QStringList found;
        T item;
        if (!array.at(i).isObject())
            found.append(QStringLiteral("an object was expected"));
        else if (const CodecError error = fromJson(object, item); !error.isEmpty())
            found.append(error.words());
        unknownKeys<T>(array.at(i), QString(), found);
        if constexpr (std::is_same_v<T, OperationSpec>)
            missingOwners(object, found);
        for (const QString& fault : found)
            faults.append(QStringLiteral("%1, %2").arg(where, fault));
        items.push_back(std::move(item));
    }
    return items;
}

} // namespace

std::optional<RemediedBy> ReadingSpec::remedyOf(const QString& answer) const
{
    const auto option = std::ranges::find(options, answer, &ChoiceOption::id);
    return option == options.end() ? remediedBy : option->remediedBy;
}

bool OperationSpec::isFor(PlaceKind kind) const
{
    return placeKinds.empty() || std::ranges::find(placeKinds, kind) != placeKinds.end() ||
           (kind == PlaceKind::WholeCar && scope == Scope::Car);
}

const OperationSpec* Catalogue::find(const QString& id) const
{
    const auto found = std::ranges::find(operations, id, &OperationSpec::id);
    return found == operations.end() ? nullptr : &*found;
}

CatalogueReading readCatalogue(const QByteArray& json)
{
    CatalogueReading reading;
    QJsonParseError error;
    const QJsonDocument document = QJsonDocument::fromJson(json, &error);
    if (error.error != QJsonParseError::NoError) {
        reading.faults.append(QStringLiteral("catalogue, line %1: not JSON: %2")
                                  .arg(json.left(error.offset).count('\n') + 1)
                                  .arg(error.errorString()));
        return reading;
    }
    if (!document.isObject()) {
        reading.faults.append(QStringLiteral("catalogue: an object was expected"));
        return reading;
    }

    QJsonObject head = document.object();
    QStringList& faults = reading.faults;
    auto operations = readItems<OperationSpec>(head, "operations", "operation", "id", faults);
    auto rules = readItems<FindingRule>(head, "rules", "rule", "id", faults);
    auto safetyPlaces =
        readItems<SafetyPlace>(head, "safetyPlaces", "safety place", "place", faults);
    for (const char* list : {"operations", "rules", "safetyPlaces"})
        head.remove(QLatin1StringView(list));
    Catalogue catalogue;
    if (const CodecError wrong = fromJson(head, catalogue); !wrong.isEmpty())
        faults.append(QStringLiteral("catalogue, %1").arg(wrong.words()));
    QStringList unknown;
    unknownKeys<Catalogue>(head, QString(), unknown);
    for (const QString& fault : unknown)
        faults.append(QStringLiteral("catalogue, %1").arg(fault));
    if (!head.value(QLatin1StringView("tread")).toObject().contains(QLatin1StringView("owner")))
        faults.append(QStringLiteral("tread, owner: who set this limit was expected"));
    missingOwners(head.value(QLatin1StringView("houseLimits")).toArray(), QStringLiteral("house"),
                  faults);
    for (const QJsonValue& country : head.value(QLatin1StringView("countries")).toArray())
        missingOwners(country.toObject().value(QLatin1StringView("limits")).toArray(),
                      QStringLiteral("country %1").arg(country.toObject().value("id").toString()),
                      faults);
    catalogue.operations = std::move(operations);
    catalogue.rules = std::move(rules);
    catalogue.safetyPlaces = std::move(safetyPlaces);

    // What was misread would only raise false alarms among the others.
    if (faults.isEmpty())
        faults = checkCatalogue(catalogue);
    if (faults.isEmpty())
        catalogue = houseCatalogue(catalogue, {});
    catalogue.hash =
        QString::fromLatin1(QCryptographicHash::hash(json, QCryptographicHash::Sha256).toHex());
    reading.catalogue = std::move(catalogue);
    return reading;
}

} // namespace ramplight
