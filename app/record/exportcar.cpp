// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/exportcar.h"

#include "domain/wholejson.h"
#include "domain/words.h"
#include "record/recordwords.h"

#include <QDateTime>
#include <QJsonDocument>

#include <algorithm>

namespace ramplight {

namespace {

constexpr int format = 1;

QString utc(Moment at)
{
    return QDateTime::fromMSecsSinceEpoch(at.ms, Qt::UTC).toString(Qt::ISODateWithMs);
}

/// An object whose empty members are left out.
class Thing
{
public:
    Thing& put(const char* name, const QJsonValue& value)
    {
        const bool empty = value.isNull() || value.isUndefined() ||
                           (value.isString() && value.toString().isEmpty());
        if (!empty)
            m_object.insert(QLatin1StringView(name), value);
        return *this;
    }
    Thing& put(const char* name, Moment at)
    {
        return put(name, at.isNull() ? QJsonValue() : QJsonValue(utc(at)));
    }
    Thing& put(const char* name, PersonId person)
    {
        return put(name, person.isNull() ? QJsonValue() : QJsonValue(person.value));
    }
    [[nodiscard]] QJsonObject object() const { return m_object; }

private:
    QJsonObject m_object;
};

template <class T, class F>
QJsonArray each(const std::vector<T>& all, F one)
{
    QJsonArray array;
    for (const T& item : all)
        array.append(one(item));
    return array;
}

template <class T>
QJsonArray serials(const std::vector<T>& ids)
{
    return each(ids, [](const T& id) { return QJsonValue(id.value); });
}

QJsonArray places(const std::vector<PlaceId>& all)
{
    return each(all, [](const PlaceId& place) { return QJsonValue(place.text); });
}

QJsonValue findingVersion(const RecordFindingVersion& version)
{
    const FindingData& data = version.data;
    return Thing()
        .put("condition", nameOf(data.condition))
        .put("place", data.place.text)
        .put("severity", data.severity ? QJsonValue(nameOf(*data.severity)) : QJsonValue())
        .put("remedies",
             each(data.remedies, [](Remedy remedy) { return QJsonValue(nameOf(remedy)); }))
        .put("count", data.count ? QJsonValue(*data.count) : QJsonValue())
        .put("sizeMm", data.sizeMm ? QJsonValue(*data.sizeMm) : QJsonValue())
        .put("note", data.note)
        .put("quote", data.quote)
        .put("words", version.words)
        .put("stands", version.stands)
        .put("by", version.by)
        .put("at", version.at)
        .put("reason", version.reason)
        .put("evidence", version.evidence.text)
        .object();
}

QJsonValue finding(const RecordModel& car, const RecordFinding& one)
{
    return Thing()
        .put("id", one.id.value)
        .put("versions", each(one.versions, findingVersion))
        .put("during", one.during.isNull() ? QJsonValue() : QJsonValue(one.during.value))
        .put("answeredBy", serials(one.answeredBy))
        .put("undecided", one.undecided)
        .put("disclosed", one.disclosed)
        .put("outcome", outcomeWords(car, one))
        .object();
}

QJsonValue reading(const RecordReading& one)
{
    return Thing()
        .put("key", one.key)
        .put("place", one.place.text)
        .put("title", one.title())
        .put("number", one.value.number ? QJsonValue(*one.value.number) : QJsonValue())
        .put("text", one.value.text)
        .put("words", one.valueWords)
        .put("limit", one.limitWords)
        .put("tool", one.toolWords)
        .put("outcome", nameOf(one.outcome))
        .put("superseded", one.superseded)
        .put("correction", one.correction)
        .put("by", one.by)
        .put("at", one.at)
        .object();
}

QJsonValue stretch(const RecordStretch& one)
{
    return Thing()
        .put("person", one.person)
        .put("start", one.start)
        .put("end", one.end)
        .put("measuredMinutes", one.measuredMinutes)
        .put("correctedMinutes",
             one.correctedMinutes ? QJsonValue(*one.correctedMinutes) : QJsonValue())
        .put("correctionReason", one.correctionReason)
        .put("correctedBy", one.correctedBy)
        .object();
}

QJsonValue signature(const RecordSignature& one)
{
    return Thing()
        .put("by", one.by)
        .put("at", one.at)
        .put("meaning", nameOf(one.meaning))
        .put("words", words(one.meaning))
        .put("note", one.note)
        .put("voided", one.voided)
        .object();
}

QJsonValue operation(const RecordOperation& one)
{
    return Thing()
        .put("id", one.id.value)
        .put("kind", one.kind)
        .put("place", one.place.text)
        .put("title", one.title)
        .put("origin", nameOf(one.origin))
        .put("reason", one.reason)
        .put("safety", one.safety)
        .put("state", nameOf(one.state))
        .put("minutes", one.minutes)
        .put("findings", serials(one.findings))
        .put("stretches", each(one.stretches, stretch))
        .put("readings", each(one.readings, reading))
        .put("signatures", each(one.signatures, signature))
        .put("leftWords", one.leftWords)
        .put("withdrawnWhy", one.withdrawnWhy)
        .put("endedBy", one.ended.by)
        .put("endedAt", one.ended.at)
        .object();
}

QJsonValue hold(const RecordHold& one)
{
    return Thing()
        .put("kind", nameOf(one.kind))
        .put("safety", one.safety)
        .put("operation", one.operation.isNull() ? QJsonValue() : QJsonValue(one.operation.value))
        .put("words", one.words)
        .object();
}

/// Adds the photos of one thing.
class Photos
{
public:
    explicit Photos(const std::vector<PhotoId>& missing)
        : m_missing(missing)
    {
    }

    void add(const std::vector<RecordPhoto>& photos, const char* whose = nullptr, int id = 0)
    {
        for (const RecordPhoto& photo : photos) {
            const bool without = !photo.gone.isEmpty() ||
                                 std::ranges::find(m_missing, photo.photo) != m_missing.end();
            Thing one;
            one.put("photo", photo.photo.text)
                .put("file", without ? QString() : exportedPhoto(photo.photo))
                .put("removed", photo.gone)
                .put("moment", nameOf(photo.moment))
                .put("words", photo.words)
                .put("by", photo.by)
                .put("at", photo.at);
            if (whose != nullptr)
                one.put(whose, id);
            m_array.append(one.object());
        }
    }
    [[nodiscard]] QJsonArray array() const { return m_array; }

private:
    const std::vector<PhotoId>& m_missing;
    QJsonArray m_array;
};

QJsonArray photoList(const RecordModel& car, const std::vector<PhotoId>& missing)
{
    Photos photos(missing);
    photos.add(car.photos);
    for (const RecordFinding& one : car.findings)
        photos.add(one.photos, "finding", one.id.value);
    for (const RecordOperation& one : car.operations)
        photos.add(one.photos, "operation", one.id.value);
    return photos.array();
}

} // namespace

std::vector<PhotoId> photosOf(const RecordModel& car)
{
    std::vector<PhotoId> all;
    const auto add = [&all](const std::vector<RecordPhoto>& photos) {
        for (const RecordPhoto& photo : photos)
            if (photo.gone.isEmpty() && std::ranges::find(all, photo.photo) == all.end())
                all.push_back(photo.photo);
    };
    add(car.photos);
    for (const RecordFinding& one : car.findings)
        add(one.photos);
    for (const RecordOperation& one : car.operations)
        add(one.photos);
    return all;
}

QString exportedPhoto(const PhotoId& photo)
{
    return QStringLiteral("photos/%1.jpg").arg(photo.text);
}

QByteArray exportedCar(const RecordModel& car, const std::vector<PhotoId>& missing)
{
    Thing whole;
    whole.put("format", format)
        .put("car", car.car.text)
        .put("entry", car.seq)
        .put("head", car.headHash)
        .put("fingerprint", car.fingerprint)
        .put("madeAt", car.madeAt)
        .put("site", car.site)
        .put("demo", car.demo)
        .put("identity", wholeJson(car.identity))
        .put("facts", wholeJson(car.facts))
        .put("arrivedAt", car.arrivedAt)
        .put("promised", codec::write(car.promised))
        .put("status", nameOf(car.status))
        .put("statusWords", statusSentence(car))
        .put("heldAgainWhy", car.heldAgainWhy)
        .put("left", car.left ? QJsonValue(nameOf(*car.left)) : QJsonValue())
        .put("leftWhy", car.leftWhy);
    if (car.released)
        whole.put("releasedBy", car.released->by).put("releasedAt", car.released->at);
    whole.put("holds", each(car.holds, hold))
        .put("findings",
             each(car.findings, [&](const RecordFinding& one) { return finding(car, one); }))
        .put("operations", each(car.operations, operation))
        .put("treads", each(car.treads,
                            [](const RecordTread& one) {
                                return QJsonValue(Thing()
                                                      .put("place", one.place.text)
                                                      .put("inner", one.tread.inner)
                                                      .put("centre", one.tread.centre)
                                                      .put("outer", one.tread.outer)
                                                      .object());
                            }))
        .put("sound", places(car.sound))
        .put("notLookedAt", places(car.notLookedAt))
        .put("photos", photoList(car, missing))
        .put("people", each(car.people, [](const RecordPerson& person) {
                 return QJsonValue(Thing().put("id", person.id).put("name", person.name).object());
             }));
    return QJsonDocument(whole.object()).toJson(QJsonDocument::Indented);
}

} // namespace ramplight
