// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What is measured and read off the car itself, whoever does it and whenever.
#include "domain/gauging.h"

#include "domain/contains.h"
#include "domain/openings.h"
#include "domain/say.h"
#include "domain/tyreconcerns.h"
#include "domain/valuefaults.h"

#include <QDateTime>

#include <algorithm>
#include <array>

namespace ramplight {

namespace {

/// It was answered, and what answered it is done.
bool isSettled(const CarState& car, FindingId finding)
{
    bool answered = false;
    for (const auto& [id, operation] : car.operations) {
        if (std::ranges::find(operation.findings, finding) == operation.findings.end())
            continue;
        if (operation.isOpen())
            return false;
        answered = answered || operation.state == OperationState::Closed;
    }
    return answered;
}

/// Something that still stands says the same already.
bool isKnown(const CarState& car, const FindingData& concern)
{
    return std::ranges::any_of(car.findings, [&](const auto& entry) {
        const Finding& finding = entry.second;
        const FindingData& data = finding.data();
        if (!finding.stands() || data.place != concern.place ||
            data.condition != concern.condition || isSettled(car, finding.id))
            return false;
        return std::ranges::find(data.remedies, concern.remedies.front()) != data.remedies.end();
    });
}

/// The tyre and the other one of its axle, whose own reading may now show beside this one.
std::vector<PlaceId> pairOf(const PlaceId& tyre)
{
    std::vector<PlaceId> pair{tyre};
    if (const PlaceId beside = tyreBeside(tyre); !beside.isEmpty())
        pair.push_back(beside);
    return pair;
}

std::vector<FindingData> concernsOf(const CarWork& work, const PlaceId& tyre)
{
    std::vector<FindingData> concerns;
    for (const PlaceId& place : pairOf(tyre))
        for (FindingData& concern :
             tyreConcerns(work.car(), place, work.catalogue(), work.rules(), dayOf(work.now())))
            concerns.push_back(std::move(concern));
    return concerns;
}

void conclude(CarWork& work, const PlaceId& tyre, OperationId during)
{
    for (const FindingData& concern : concernsOf(work, tyre)) {
        // Low tread in a survey is outside that reading's own limit and opens its follow-up there.
        const bool byLimit = !during.isNull() && concern.treadTenthsMm;
        if (!byLimit && !isKnown(work.car(), concern))
            recordFinding(work, concern, during);
    }
}

bool isAmong(const std::vector<FindingData>& concerns, const FindingData& data)
{
    return std::ranges::find(concerns, data) != concerns.end();
}

/// Takes back what was concluded and is so no more; nothing: whatever it was found during.
void takeBack(CarWork& work, const std::optional<OperationId>& during,
              const std::vector<FindingData>& before, const std::vector<FindingData>& after,
              const QString& why, const PhotoId& evidence)
{
    std::vector<FindingId> gone;
    for (const auto& [id, finding] : work.car().findings)
        if (finding.stands() && (!during || finding.during == *during) &&
            isAmong(before, finding.data()) && !isAmong(after, finding.data()))
            gone.push_back(id);
    for (const FindingId id : gone) {
        const FindingData data = work.car().finding(id)->data();
        work.add(FindingCorrected{id, data, false, why, evidence, false, false, false, {}, {}});
        detachFinding(work, id, why, {});
    }
}

/// Keys by which the catalogue asks for the three points of a tyre.
constexpr std::array treadKeys{"tread-inner", "tread-centre", "tread-outer"};
constexpr const char* dateCodeKey = "date-code";
constexpr const char* marksKey = "marks";
constexpr const char* odometerKey = "odometer";

PlaceId placeOf(const Operation& operation, const PlaceId& place)
{
    return place.isEmpty() ? operation.place : place;
}

bool asksForTread(const Operation& operation, const PlaceId& tyre)
{
    return std::ranges::all_of(treadKeys, [&](const char* key) {
        const auto spec = std::ranges::find(operation.spec->readings, QString::fromLatin1(key),
                                            &ReadingSpec::key);
        return spec != operation.spec->readings.end() && contains(spec->places, tyre);
    });
}

QString textOf(const Operation& operation, const char* key, const PlaceId& tyre)
{
    const Reading* reading = operation.reading(QString::fromLatin1(key), tyre);
    if (reading == nullptr && operation.place == tyre)
        reading = operation.reading(QString::fromLatin1(key), PlaceId{});
    return reading == nullptr ? QString() : reading->value.text;
}

/// What is older was of another tyre; null where none was fitted here.
Moment fittedAt(const CarState& car, const PlaceId& tyre)
{
    const auto measured = car.tyresMeasured.find(tyre);
    return measured == car.tyresMeasured.end() ? Moment{} : measured->second.fitted;
}

/// As they stand in an operation's readings; a date code was judged when it was taken.
TyreMarking markingOf(const Operation& operation, const PlaceId& tyre, QDate today)
{
    TyreMarking marking;
    if (const QString typed = textOf(operation, dateCodeKey, tyre);
        !typed.isEmpty() && readDateCode(typed, today))
        marking.dateCode = typed.simplified().right(4);
    // The marks are words; they count where they can be read as a size.
    if (const std::optional<TyreSize> size = readTyreSize(textOf(operation, marksKey, tyre)))
        marking.fitment = tidied(size->fitment).value_or(TyreFitment{});
    return marking;
}

/// In the unit in which the car's odometer counts. A correction says what it showed when it was
/// read: what was read after that stays the last.
void noteOdometer(CarWork& work, const Operation& operation, const PlaceId& place,
                  const QString& correction)
{
    const Reading* reading = operation.reading(QString::fromLatin1(odometerKey), place);
    if (reading == nullptr || !reading->value.number)
        return;
    const Moment then = correction.isEmpty() ? Moment{} : readFirst(operation, *reading);
    const std::optional<OdometerReading> before =
        then.isNull() ? work.car().lastOdometer() : shownBy(work.car(), then);
    const DistanceUnit unit = work.car().unitOf(before);
    const int value = *reading->value.number;
    const bool less = before && showsLess(value, unit, before->value, before->unit);
    QString why;
    if (less)
        why = correction.isEmpty() && value >= before->value ? say("its unit was corrected since")
                                                             : correction;
    work.add(OdometerRead{value, unit, operation.id, why, {}, then});
}

} // namespace

std::optional<OdometerReading> shownBy(const CarState& car, Moment then)
{
    std::optional<OdometerReading> last;
    if (car.facts.odometer > 0 && car.arrivedAt <= then)
        last =
            OdometerReading{car.facts.odometer, car.facts.odometerUnit, {}, car.arrivedAt, {}, {}};
    for (const OdometerReading& read : car.odometer)
        if (read.at <= then && (!last || read.at >= last->at))
            last = read;
    return last;
}

Moment readFirst(const Operation& operation, const Reading& reading)
{
    Moment first = reading.at;
    const auto last = std::ranges::find(operation.readings, reading.id, &Reading::id);
    if (last == operation.readings.end())
        return first;
    // A correction stands behind what it corrects, with the same key and place.
    for (auto it = std::make_reverse_iterator(std::next(last)); it != operation.readings.rend();
         ++it) {
        if (it->key != reading.key || it->place != reading.place)
            continue;
        first = it->at;
        if (it->correction.isEmpty())
            break;
    }
    return first;
}

std::optional<Tread> treadOf(const Operation& operation, const PlaceId& tyre, Moment since)
{
    std::array<int, treadKeys.size()> points{};
    for (std::size_t i = 0; i < treadKeys.size(); ++i) {
        const QString key = QString::fromLatin1(treadKeys.at(i));
        const Reading* reading = operation.reading(key, tyre);
        if (reading == nullptr && operation.place == tyre)
            reading = operation.reading(key, PlaceId{});
        if (reading == nullptr || !reading->value.number || reading->at < since)
            return std::nullopt;
        points.at(i) = *reading->value.number;
    }
    return Tread{points.at(0), points.at(1), points.at(2)};
}

bool isHalfSurveyed(const CarState& car, const PlaceId& tyre, const PlaceId& other)
{
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        const Operation& operation = entry.second;
        const auto isRead = [&](const PlaceId& place) {
            return treadOf(operation, place, fittedAt(car, place)).has_value();
        };
        return operation.isOpen() && asksForTread(operation, tyre) &&
               asksForTread(operation, other) && isRead(tyre) != isRead(other);
    });
}

std::vector<ReadingId> readingsOfTyre(const CarState& car, const PlaceId& tyre, OperationId fitting)
{
    std::vector<ReadingId> readings;
    for (const auto& [id, operation] : car.operations)
        for (const Reading& reading : operation.readings)
            if (id != fitting && operation.isOpen() && !operation.isSigned() &&
                !reading.superseded && placeOf(operation, reading.place) == tyre)
                readings.push_back(reading.id);
    return readings;
}

QDate dayOf(Moment moment)
{
    return QDateTime::fromMSecsSinceEpoch(moment.ms, Qt::UTC).date();
}

MaybeRefusal readingFault(const CarWork& work, const Operation& operation, const QString& key,
                          const PlaceId& place, const ReadingValue& value, bool correction)
{
    if (isNoWaiting(operation, key, value))
        return Refusal{RefusalId::ValueOutOfRange, {operation.spec->wait.reason}};
    if (key == QLatin1StringView(odometerKey) && value.number && !correction)
        if (const auto before = work.car().lastOdometer())
            if (*value.number < before->value)
                return Refusal{RefusalId::OdometerLower,
                               {odometerWords(before->value, before->unit)}};
    if (key != QLatin1StringView(dateCodeKey) || !isTyre(placeOf(operation, place)))
        return std::nullopt;
    if (const auto code = readDateCode(value.text, dayOf(work.now())); !code)
        return Refusal{RefusalId::TyreMarkMalformed, {code.error()}};
    return std::nullopt;
}

void noteReading(CarWork& work, OperationId id, const QString& key, const PlaceId& place,
                 const QString& correction, const PhotoId& evidence)
{
    const Operation operation = *work.car().operation(id);
    if (key == QLatin1StringView(odometerKey)) {
        noteOdometer(work, operation, place, correction);
        return;
    }
    const PlaceId tyre = placeOf(operation, place);
    const bool ofTread = std::ranges::any_of(
        treadKeys, [&](const char* name) { return key == QLatin1StringView(name); });
    // A new tyre's marks count when the work is signed.
    const bool ofDate =
        key == QLatin1StringView(dateCodeKey) && operation.spec->id != work.catalogue().tread.opens;
    if (!isTyre(tyre) || (!ofTread && !ofDate))
        return;
    TyreRecorded recorded{tyre, {}, {}, id, false};
    if (ofTread)
        recorded.tread = treadOf(operation, tyre, fittedAt(work.car(), tyre));
    else
        recorded.marking = markingOf(operation, tyre, dayOf(work.now()));
    if (!recorded.tread && recorded.marking.isEmpty())
        return;
    const std::vector<FindingData> before = concernsOf(work, tyre);
    work.add(recorded);
    if (!correction.isEmpty())
        takeBack(work, id, before, concernsOf(work, tyre), correction, evidence);
    conclude(work, tyre, id);
}

void noteTyreFitted(CarWork& work, OperationId id)
{
    const Operation operation = *work.car().operation(id);
    if (!isTyre(operation.place) || operation.spec->id != work.catalogue().tread.opens)
        return;
    const std::vector<ReadingId> outdated = readingsOfTyre(work.car(), operation.place, id);
    work.add(TyreRecorded{operation.place,
                          {},
                          markingOf(operation, operation.place, dayOf(work.now())),
                          id,
                          true,
                          {},
                          outdated});
    // Nobody can correct them any more; only what concerns more than this tyre is still to be done.
    for (const ReadingId reading : outdated)
        work.detach(reading, QStringLiteral("another tyre is on"), operation.place);
    conclude(work, operation.place, id);
}

std::vector<FindingData> allTyreConcerns(const CarWork& work)
{
    std::vector<FindingData> concerns;
    for (const PlaceInfo& place : allPlaces())
        if (place.kind == PlaceKind::Tyre)
            for (FindingData& concern : tyreConcerns(work.car(), place.id, work.catalogue(),
                                                     work.rules(), dayOf(work.now())))
                concerns.push_back(std::move(concern));
    return concerns;
}

void takeBackTyreConcerns(CarWork& work, const std::vector<FindingData>& before, const QString& why,
                          const PhotoId& evidence)
{
    takeBack(work, std::nullopt, before, allTyreConcerns(work), why, evidence);
}

void concludeFromTyres(CarWork& work)
{
    for (const PlaceInfo& place : allPlaces())
        if (place.kind == PlaceKind::Tyre)
            conclude(work, place.id, {});
}

namespace decision {

MaybeRefusal on(CarWork& work, const car::RecordTread& c)
{
    return on(work, car::RecordTyre{c.place, c.tread, {}, {}, {}, {}});
}

MaybeRefusal on(CarWork& work, const car::RecordTyre& c)
{
    if (auto no = work.needsAny({Right::Appraise, Right::Work}))
        return no;
    if (!isTyre(c.place))
        return Refusal{RefusalId::PlaceUnknown, {c.place.text}};
    if (c.tread)
        if (auto no = treadFault(*c.tread))
            return no;
    TyreRecorded recorded{c.place, c.tread, {}, {}, false};
    if (!c.dateCode.trimmed().isEmpty()) {
        if (const auto code = readDateCode(c.dateCode, dayOf(work.now())); !code)
            return Refusal{RefusalId::TyreMarkMalformed, {code.error()}};
        recorded.marking.dateCode = c.dateCode.simplified().right(4);
    }
    const auto fitment = tidied(TyreFitment{c.size, c.loadIndex, c.speedSymbol});
    if (!fitment)
        return Refusal{RefusalId::TyreMarkMalformed, {fitment.error()}};
    recorded.marking.fitment = *fitment;
    if (!recorded.tread && recorded.marking.isEmpty())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("a reading of the tyre")}};
    work.add(recorded);
    conclude(work, c.place, {});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::RecordPaintDepth& c)
{
    if (auto no = work.needsAny({Right::Appraise, Right::Work}))
        return no;
    const PlaceInfo* info = placeInfo(c.panel);
    if (info == nullptr)
        return Refusal{RefusalId::PlaceUnknown, {c.panel.text}};
    const QString panel = placeWords(c.panel, work.rules());
    if (info->kind != PlaceKind::Panel)
        return Refusal{RefusalId::ValueOutOfRange,
                       {QStringLiteral("paint depth of %1, which is no metal panel").arg(panel)}};
    if (c.micrometres.size() < leastPaintPoints)
        return Refusal{RefusalId::FieldMissing,
                       {QStringLiteral("paint depth at three points of %1 or more").arg(panel)}};
    if (!isPaintDepth(c.micrometres))
        return Refusal{RefusalId::ValueOutOfRange,
                       {QStringLiteral("paint depth of %1").arg(panel)}};
    work.add(PaintDepthRecorded{c.panel, c.micrometres});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::ConfirmRepair& c)
{
    if (auto no = work.needsAny({Right::Appraise, Right::Work, Right::Check, Right::Manage}))
        return no;
    const PaintComparison all = comparePaint(work.car().paint, work.catalogue(), work.rules());
    const auto panel = std::ranges::find(all.panels, c.panel, &PanelPaint::panel);
    if (panel == all.panels.end() || panel->sign == PaintSign::Alike)
        return Refusal{RefusalId::PaintAlike,
                       {!all.enough ? QStringLiteral("too few panels were measured to compare")
                        : panel == all.panels.end()
                            ? QStringLiteral("it was not measured")
                            : QStringLiteral("it has %1 µm, the others %2 µm")
                                  .arg(panel->median)
                                  .arg(all.median)}};
    FindingData data;
    data.place = c.panel;
    data.condition = Condition::PreviousRepair;
    data.note = c.note.trimmed().isEmpty()
                    ? panel->words
                    : QStringLiteral("%1; %2").arg(panel->words, c.note.trimmed());
    if (!work.car().hasFinding(data.place, data.condition))
        recordFinding(work, data, {});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::ReadOdometer& c)
{
    if (auto no = work.needsAny(
            {Right::Appraise, Right::Work, Right::Check, Right::Manage, Right::Release}))
        return no;
    if (c.value < 1 || c.value > largestOdometer)
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("odometer")}};
    if (!c.during.isNull() && work.car().operation(c.during) == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    const std::optional<OdometerReading> before = work.car().lastOdometer();
    const bool less = before && showsLess(c.value, c.unit, before->value, before->unit);
    if (less && c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::OdometerLower, {odometerWords(before->value, before->unit)}};
    work.add(OdometerRead{c.value, c.unit, c.during, less ? c.reason.trimmed() : QString()});
    return std::nullopt;
}

} // namespace decision

} // namespace ramplight
