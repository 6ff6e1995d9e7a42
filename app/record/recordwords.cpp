// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordwords.h"

#include "domain/clockwords.h"
#include "domain/say.h"
#include "domain/words.h"

#include <QDateTime>

#include <algorithm>

namespace ramplight {

namespace {

/// Within a sentence, unless it begins with an abbreviation.
QString small(QString title)
{
    if (title.size() > 1 && !title.at(1).isUpper())
        title[0] = title.at(0).toLower();
    return title;
}

QTimeZone zoneOf(const QString& iana)
{
    const QTimeZone zone(iana.toLatin1());
    return zone.isValid() ? zone : QTimeZone::utc();
}

/// The work that answers a finding, by how it stands.
struct Answers
{
    QStringList done;
    QStringList left;
    QStringList open;
};

Answers answersTo(const RecordModel& model, const RecordFinding& finding)
{
    Answers answers;
    for (const OperationId id : finding.answeredBy) {
        const RecordOperation* operation = model.operation(id);
        if (operation == nullptr)
            continue;
        QStringList& list = operation->isOpen()                            ? answers.open
                            : operation->state == OperationState::LeftAsIs ? answers.left
                                                                           : answers.done;
        // The finding's line names the place already.
        const bool samePlace = operation->place == finding.now().data.place;
        list.append(samePlace ? small(operation->name) : operation->title);
    }
    return answers;
}

QString withoutWork(const RecordFinding& finding)
{
    return finding.disclosed   ? say("left as it is")
           : finding.undecided ? say("nobody has decided what to do")
                               : say("recorded; no work was opened for it");
}

} // namespace

QString recordLanguage()
{
    //: The language of this translation, as a BCP 47 tag
    return say("en");
}

QLocale recordLocale()
{
    return QLocale(recordLanguage());
}

RecordTimes::RecordTimes(const QString& ianaZone)
    : m_zone(zoneOf(ianaZone))
{
}

QString RecordTimes::full(Moment at) const
{
    if (at.isNull())
        return {};
    return recordLocale().toString(QDateTime::fromMSecsSinceEpoch(at.ms, m_zone),
                                   QStringLiteral("ddd d MMM yyyy, HH:mm"));
}

QString RecordTimes::brief(Moment at) const
{
    if (at.isNull())
        return {};
    return recordLocale().toString(QDateTime::fromMSecsSinceEpoch(at.ms, m_zone),
                                   QStringLiteral("d MMM, HH:mm"));
}

QString RecordTimes::date(QDate date)
{
    return recordLocale().toString(date, QStringLiteral("ddd d MMM yyyy"));
}

QString durationWords(int minutes)
{
    if (minutes < 60)
        return say("%1 min").arg(minutes);
    return say("%1 h %2 min").arg(minutes / 60).arg(minutes % 60, 2, 10, QLatin1Char('0'));
}

QString carName(const Identity& identity)
{
    return QStringLiteral("%1 %2").arg(identity.make, identity.model).trimmed();
}

QString documentTitle(const RecordModel& model)
{
    return say("Handover record %1, %2").arg(model.identity.stockNumber, carName(model.identity));
}

QString statusTitle(const RecordModel& model)
{
    switch (model.status) {
    case CarStatus::Released:
        return say("Released to sale");
    case CarStatus::Withdrawn:
        return say("Withdrawn, not for sale");
    case CarStatus::Arriving:
    case CarStatus::InPrep:
    case CarStatus::Held:
    case CarStatus::ReadyForRelease:
        break;
    }
    return say("Not released yet");
}

QString statusSentence(const RecordModel& model)
{
    const RecordTimes times(model.rules.timeZone);
    if (model.status == CarStatus::Released && model.released)
        return say("Signed by %1 on %2.")
            .arg(model.nameOf(model.released->by), times.full(model.released->at));
    if (model.left) {
        const QString how =
            model.released
                ? say("It had been released by %1 on %2 and left another way, %3.")
                      .arg(model.nameOf(model.released->by), times.full(model.released->at),
                           words(*model.left))
                : say("This car left the workshop unreleased, %1.").arg(words(*model.left));
        return model.leftWhy.isEmpty() ? how : QStringLiteral("%1 %2").arg(how, model.leftWhy);
    }
    const QString again =
        model.heldAgainWhy.isEmpty()
            ? QString()
            : say("It had been released and is held again: %1. ").arg(model.heldAgainWhy);
    if (model.holds.empty())
        return again + say("Nothing holds it any more; nobody has signed it to sale.");
    return again + (model.holds.size() == 1
                        ? say("One thing holds this car. It must not be handed over.")
                        : say("%1 things hold this car. It must not be handed over.")
                              .arg(model.holds.size()));
}

FindingOutcome outcomeOf(const RecordModel& model, const RecordFinding& finding)
{
    if (!finding.now().stands)
        return FindingOutcome::NotThere;
    bool left = finding.answeredBy.empty() && finding.disclosed;
    bool open = finding.answeredBy.empty() && !finding.disclosed;
    for (const OperationId id : finding.answeredBy)
        if (const RecordOperation* operation = model.operation(id)) {
            open = open || operation->isOpen();
            left = left || operation->state == OperationState::LeftAsIs;
        }
    return open ? FindingOutcome::Open : left ? FindingOutcome::Left : FindingOutcome::Done;
}

QString outcomeWords(const RecordModel& model, const RecordFinding& finding)
{
    if (!finding.now().stands)
        return say("not there: %1").arg(finding.now().reason);
    const Answers answers = answersTo(model, finding);
    QStringList parts;
    if (!answers.done.isEmpty())
        parts.append(say("done: %1").arg(answers.done.join(QStringLiteral("; "))));
    if (!answers.left.isEmpty())
        parts.append(say("left as it is: %1").arg(answers.left.join(QStringLiteral("; "))));
    if (!answers.open.isEmpty())
        parts.append(say("not finished: %1").arg(answers.open.join(QStringLiteral("; "))));
    return parts.isEmpty() ? withoutWork(finding) : parts.join(QStringLiteral(". "));
}

QString workWords(const RecordModel& model, const RecordFinding& finding)
{
    const Answers answers = answersTo(model, finding);
    const auto kinds = (answers.done.isEmpty() ? 0 : 1) + (answers.left.isEmpty() ? 0 : 1) +
                       (answers.open.isEmpty() ? 0 : 1);
    return kinds == 1 ? (answers.done + answers.left + answers.open).join(QStringLiteral("; "))
                      : outcomeWords(model, finding);
}

QString stretchWords(const RecordModel& model, const RecordStretch& stretch)
{
    if (stretch.end.isNull())
        return say("still running");
    QString text = stretch.correctedMinutes
                       ? say("%1; the timer said %2, corrected by %3: %4")
                             .arg(durationWords(*stretch.correctedMinutes),
                                  durationWords(stretch.measuredMinutes),
                                  model.nameOf(stretch.correctedBy), stretch.correctionReason)
                       : durationWords(stretch.measuredMinutes);
    if (const QString clock = clockWords(stretch.clockSetBack, stretch.clockPutForward);
        !clock.isEmpty())
        text += QStringLiteral("; ") + clock;
    return text;
}

QString namesOf(const RecordModel& model, const std::vector<PersonId>& people)
{
    QStringList names;
    for (const PersonId id : people)
        names.append(model.nameOf(id));
    return names.join(QStringLiteral(", "));
}

} // namespace ramplight
