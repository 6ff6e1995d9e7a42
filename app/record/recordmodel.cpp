// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordmodel.h"

#include "domain/openings.h"
#include "domain/retention.h"
#include "domain/say.h"
#include "domain/words.h"
#include "record/recordsteps.h"
#include "record/recordwords.h"

#include <QCryptographicHash>
#include <QJsonDocument>

#include <algorithm>

namespace ramplight {

namespace {

template <class T>
bool contains(const std::vector<T>& all, const T& one)
{
    return std::ranges::find(all, one) != all.end();
}

/// The bound with who set it, and where it can be looked up when that says more.
QString limitsOf(const ReadingSpec& spec, const std::vector<Limit>& limits)
{
    QStringList parts;
    for (const Limit& limit : limits) {
        if (!limit.min && !limit.max)
            continue;
        QString bound = limitWords(spec, {limit});
        const bool saysMore = !limit.source.isEmpty() &&
                              limit.source != QLatin1String("house default") &&
                              limit.source.compare(words(limit.owner), Qt::CaseInsensitive) != 0;
        if (saysMore && bound.endsWith(QLatin1Char(')')))
            bound = QStringLiteral("%1, %2)").arg(bound.chopped(1), limit.source);
        parts.append(bound);
    }
    return parts.join(QStringLiteral("; "));
}

/// The narrowest bound, without who set it; empty when there is none.
QString boundOf(const ReadingSpec& spec, const std::vector<Limit>& limits)
{
    std::optional<int> least;
    std::optional<int> most;
    for (const Limit& limit : limits) {
        if (limit.min)
            least = std::max(*limit.min, least.value_or(*limit.min));
        if (limit.max)
            most = std::min(*limit.max, most.value_or(*limit.max));
    }
    const auto value = [&](int number) { return valueWords(number, spec.decimals, spec.unit); };
    if (least && most)
        return *least == *most ? say("exactly %1").arg(value(*least))
                               : say("%1 to %2").arg(value(*least), value(*most));
    return least  ? say("at least %1").arg(value(*least))
           : most ? say("at most %1").arg(value(*most))
                  : QString();
}

QString placed(const QString& title, const PlaceId& place, const HouseRules& rules)
{
    return place.isEmpty() ? title : QStringLiteral("%1, %2").arg(title, placeWords(place, rules));
}

const ReadingSpec& specOf(const Operation& operation, const QString& key, ReadingSpec& none)
{
    const auto it = std::ranges::find(operation.spec->readings, key, &ReadingSpec::key);
    if (it != operation.spec->readings.end())
        return *it;
    none.title = key;
    return none;
}

RecordReading readingOf(const Operation& operation, const Reading& reading, const HouseRules& rules)
{
    ReadingSpec none;
    const ReadingSpec& spec = specOf(operation, reading.key, none);
    return {reading.key,
            reading.place,
            reading.value,
            reading.outcome,
            reading.limits,
            reading.by,
            reading.at,
            reading.superseded,
            reading.correction,
            capital(spec.title),
            reading.place.isEmpty() ? QString() : placeWords(reading.place, rules),
            readingWords(spec, reading.value),
            limitsOf(spec, reading.limits),
            reading.tool,
            toolWords(spec, reading.tool),
            boundOf(spec, reading.limits)};
}

RecordFigure figureOf(const Operation& operation, const Figure& figure, const HouseRules& rules)
{
    ReadingSpec none;
    const ReadingSpec& spec = specOf(operation, figure.key, none);
    return {figure.key,
            figure.place,
            figure.value,
            figure.source,
            figure.by,
            figure.at,
            figure.correction,
            operation.figure(figure.key, figure.place) == &figure,
            capital(placed(spec.title, figure.place, rules)),
            valueWords(figure.value, spec.decimals, spec.unit)};
}

RecordStretch stretchOf(const Segment& segment)
{
    return {segment.person,
            segment.start,
            segment.end,
            segment.measuredMinutes(),
            segment.correctedMinutes,
            segment.correctionReason,
            segment.correctedBy,
            segment.clockSetBack,
            segment.ranMs && !segment.clockSetBack};
}

RecordPhoto photoOf(const AttachedPhoto& photo)
{
    return {photo.photo, photo.moment, photo.by, photo.at, words(photo.moment)};
}

RecordPhoto proofOf(const AttachedPhoto& proof)
{
    return {proof.photo, PhotoMoment::After, proof.by, proof.at, say("evidence of the correction")};
}

/// Who did the work that this operation checks at its place, where the catalogue names it.
std::vector<PersonId> checkedBy(const CarState& car, const Operation& check)
{
    std::vector<PersonId> people;
    for (const auto& [id, operation] : car.operations) {
        const bool named = check.spec->checksWorkOf.contains(operation.spec->id);
        const bool here = check.place == operation.place || check.spec->scope == Scope::Car;
        if (!named || !here || operation.state == OperationState::Withdrawn)
            continue;
        for (const Signature& signature : operation.signatures)
            if (!signature.voided && signature.meaning == SignatureMeaning::DidTheWork &&
                !contains(people, signature.by))
                people.push_back(signature.by);
    }
    return people;
}

RecordOperation operationOf(const CarState& car, const Operation& operation,
                            const std::vector<CarEnvelope>& history, const HouseRules& rules)
{
    RecordOperation made;
    made.id = operation.id;
    made.kind = operation.spec->id;
    made.place = operation.place;
    made.title = operationTitle(operation.spec, operation.place, rules);
    made.name = operation.spec->title;
    made.reason = operation.reason;
    made.origin = operation.origin;
    made.safety = operation.spec->safety;
    made.state = operation.state;
    made.findings = operation.findings;
    made.minutes = operation.minutes();
    for (const Segment& segment : operation.segments)
        made.stretches.push_back(stretchOf(segment));
    for (const Reading& reading : operation.readings)
        made.readings.push_back(readingOf(operation, reading, rules));
    for (const Figure& figure : operation.figures)
        made.figures.push_back(figureOf(operation, figure, rules));
    for (const Signature& s : operation.signatures)
        made.signatures.push_back({s.by, s.at, s.meaning, s.minutes, s.note, s.voided});
    // A photo of the finding is the "before" of the work that answers it.
    for (const AttachedPhoto& photo : car.photos)
        if (photo.operation == operation.id ||
            (photo.operation.isNull() && !photo.finding.isNull() &&
             contains(operation.findings, photo.finding)))
            made.photos.push_back(photoOf(photo));
    for (const AttachedPhoto& proof : car.proofs)
        if (proof.operation == operation.id)
            made.photos.push_back(proofOf(proof));
    std::ranges::stable_sort(made.photos, {}, &RecordPhoto::moment);
    made.cautions = operation.spec->cautions;
    made.leftWords = operation.leftWords;
    if (operation.state == OperationState::Closed)
        made.advice = operation.spec->advice;
    made.withdrawnWhy = operation.withdrawnWhy;
    made.second = operation.spec->secondPerson;
    made.checked = checkedBy(car, operation);
    fillFromHistory(made, history, car.seq);
    return made;
}

RecordFinding findingOf(const CarState& car, const Finding& finding, const HouseRules& rules)
{
    RecordFinding made;
    made.id = finding.id;
    for (const FindingVersion& v : finding.versions)
        made.versions.push_back(
            {v.data, v.stands, v.by, v.at, v.reason, v.evidence, findingWords(v.data, rules)});
    for (const AttachedPhoto& proof : car.proofs)
        if (proof.finding == finding.id)
            made.photos.push_back(proofOf(proof));
    made.during = finding.during.value_or(OperationId{});
    made.undecided = finding.undecided;
    made.disclosed = finding.disclosed;
    made.answeredBy = answersTo(car, finding.id);
    if (made.answeredBy.empty())
        for (const AttachedPhoto& photo : car.photos)
            if (photo.finding == finding.id && photo.operation.isNull())
                made.photos.push_back(photoOf(photo));
    return made;
}

/// Places that the appraisal or the catalogue named as unseen, and that nobody saw since.
std::vector<PlaceId> unseenOf(const CarState& car, const std::vector<CarEnvelope>& history)
{
    std::vector<PlaceId> unseen;
    const auto add = [&](const PlaceId& place) {
        if (!car.seen.contains(place) && !contains(unseen, place))
            unseen.push_back(place);
    };
    for (const CarEnvelope& entry : history)
        if (const auto* finished = std::get_if<AppraisalFinished>(&entry.event);
            finished != nullptr && entry.seq <= car.seq)
            std::ranges::for_each(finished->notLookedAt, add);
    for (const SafetyPlace& safety : notLookedAt(car))
        add(safety.place);
    return unseen;
}

void tellRemovals(std::vector<RecordPhoto>& photos, const CarState& car)
{
    for (RecordPhoto& photo : photos)
        if (const PhotoFate* fate = car.removedPhoto(photo.photo))
            photo.gone = removedWords(*fate);
}

QString fingerprintOf(const RecordHead& head)
{
    QStringList groups;
    for (qsizetype at = 0; at < 16 && at < head.hash.size(); at += 4)
        groups.append(head.hash.mid(at, 4));
    return say("%1, entry %2").arg(groups.join(QLatin1Char(' '))).arg(head.seq);
}

std::vector<PlaceId> newTyresOf(const CarState& car, const std::vector<CarEnvelope>& history)
{
    std::vector<PlaceId> fitted;
    for (const CarEnvelope& entry : history)
        if (const auto* tyre = std::get_if<TyreRecorded>(&entry.event);
            tyre != nullptr && tyre->fitted && entry.seq <= car.seq &&
            !car.treads.contains(tyre->place) && !contains(fitted, tyre->place))
            fitted.push_back(tyre->place);
    return fitted;
}

} // namespace

bool RecordReading::namesItsPlace() const
{
    return placeWords.isEmpty() || name.startsWith(placeWords, Qt::CaseInsensitive);
}

QString RecordReading::title() const
{
    return namesItsPlace() ? name : QStringLiteral("%1, %2").arg(name, placeWords);
}

bool RecordOperation::isOpen() const
{
    return state != OperationState::Closed && state != OperationState::LeftAsIs &&
           state != OperationState::Withdrawn;
}

std::vector<PersonId> RecordOperation::names() const
{
    std::vector<PersonId> people;
    for (const RecordSignature& signature : signatures)
        if (!signature.voided && !contains(people, signature.by))
            people.push_back(signature.by);
    return people;
}

const RecordOperation* RecordModel::operation(OperationId id) const
{
    const auto it = std::ranges::find(operations, id, &RecordOperation::id);
    return it == operations.end() ? nullptr : &*it;
}

QString RecordModel::nameOf(PersonId id) const
{
    if (id.isNull())
        return say("the house");
    const auto it = std::ranges::find(people, id, &RecordPerson::id);
    return it == people.end() || it->name.isEmpty() ? say("person %1").arg(id.value) : it->name;
}

QString RecordModel::digest() const
{
    const QByteArray json = QJsonDocument(toJson(*this)).toJson(QJsonDocument::Compact);
    return QString::fromLatin1(QCryptographicHash::hash(json, QCryptographicHash::Sha256).toHex());
}

RecordModel buildRecord(const CarState& car, const std::vector<CarEnvelope>& history,
                        const SiteState& site, const RecordHead& head, const QString& standingLine,
                        Moment madeAt)
{
    RecordModel model;
    model.car = car.id;
    model.seq = car.seq;
    model.madeAt = madeAt;
    model.identity = car.identity;
    model.facts = car.facts;
    model.promised = car.promised;
    model.arrivedAt = car.arrivedAt;
    model.status = statusOf(car, site.rules, madeAt);
    if (!car.released && !car.left)
        for (const Hold& hold : holds(car, site.rules, madeAt))
            model.holds.push_back(
                {hold.kind, hold.safety, hold.operation, hold.place, hold.finding, hold.words});
    if (car.released)
        model.released = RecordDeed{car.released->by, car.released->at};
    model.heldAgainWhy = car.heldAgainWhy;
    model.left = car.left;
    model.leftWhy = car.leftWhy;
    for (const auto& [id, finding] : car.findings)
        model.findings.push_back(findingOf(car, finding, site.rules));
    for (const auto& [id, operation] : car.operations)
        model.operations.push_back(operationOf(car, operation, history, site.rules));
    for (const auto& [place, tread] : car.treads)
        model.treads.push_back({place, tread, placeWords(place, site.rules)});
    for (const auto& [place, marking] : car.tyres)
        model.tyres.push_back({place, marking});
    // The hints of the house are the wall's; the record tells one panel from the others.
    for (const PanelPaint& panel : comparePaint(car.paint, Catalogue{}, site.rules).panels)
        model.paint.push_back(
            {panel.panel, car.paint.at(panel.panel), panel.median, panel.highest, panel.words});
    for (const OdometerReading& reading : car.odometer)
        model.odometer.push_back(
            {reading.value, reading.unit, RecordDeed{reading.by, reading.at}, reading.lowerWhy});
    for (const auto& [place, seen] : car.seen.asKeyValueRange())
        if (seen.sound && !car.hasFinding(place))
            model.sound.push_back(place);
    model.notLookedAt = unseenOf(car, history);
    model.steps = stepsOfCar(history, car.seq);
    for (const AttachedPhoto& photo : car.photos)
        if (photo.operation.isNull() && photo.finding.isNull())
            model.photos.push_back(photoOf(photo));
    for (const AttachedPhoto& proof : car.proofs)
        if (proof.operation.isNull() && proof.finding.isNull())
            model.photos.push_back(proofOf(proof));
    tellRemovals(model.photos, car);
    for (RecordFinding& finding : model.findings)
        tellRemovals(finding.photos, car);
    for (RecordOperation& operation : model.operations)
        tellRemovals(operation.photos, car);

    model.newTyres = newTyresOf(car, history);
    model.site = site.name;
    model.demo = site.demo;
    model.rules = site.rules;
    model.standingLine = standingLine;
    model.headHash = head.hash;
    model.fingerprint = fingerprintOf(head);
    for (const auto& [id, person] : site.people)
        model.people.push_back({id, person.name});
    return model;
}

} // namespace ramplight
