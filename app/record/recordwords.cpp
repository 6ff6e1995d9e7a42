// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordwords.h"

#include "domain/words.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QLocale>

#include <algorithm>

namespace ramplight {

namespace {

QString say(const char* text)
{
    return QCoreApplication::translate("ramplight", text);
}

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

} // namespace

RecordTimes::RecordTimes(const QString& ianaZone)
    : m_zone(zoneOf(ianaZone))
{
}

QString RecordTimes::full(Moment at) const
{
    if (at.isNull())
        return {};
    return QLocale().toString(QDateTime::fromMSecsSinceEpoch(at.ms, m_zone),
                              QStringLiteral("ddd d MMM yyyy, HH:mm"));
}

QString RecordTimes::brief(Moment at) const
{
    if (at.isNull())
        return {};
    return QLocale().toString(QDateTime::fromMSecsSinceEpoch(at.ms, m_zone),
                              QStringLiteral("d MMM, HH:mm"));
}

QString RecordTimes::date(QDate date)
{
    return QLocale().toString(date, QStringLiteral("ddd d MMM yyyy"));
}

QString durationWords(int minutes)
{
    if (minutes < 60)
        return say("%1 min").arg(minutes);
    return say("%1 h %2 min").arg(minutes / 60).arg(minutes % 60, 2, 10, QLatin1Char('0'));
}

QString capital(QString words)
{
    if (!words.isEmpty())
        words[0] = words.at(0).toUpper();
    return words;
}

QString carName(const Identity& identity)
{
    return QStringLiteral("%1 %2").arg(identity.make, identity.model).trimmed();
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
            say("This car left the workshop unreleased, %1.").arg(words(*model.left));
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
    QStringList done;
    QStringList left;
    QStringList open;
    for (const OperationId id : finding.answeredBy) {
        const RecordOperation* operation = model.operation(id);
        if (operation == nullptr)
            continue;
        QStringList& list = operation->isOpen()                            ? open
                            : operation->state == OperationState::LeftAsIs ? left
                                                                           : done;
        // The finding's line names the place already.
        const bool samePlace = operation->place == finding.now().data.place;
        list.append(samePlace ? small(operation->name) : operation->title);
    }
    QStringList parts;
    if (!done.isEmpty())
        parts.append(say("done: %1").arg(done.join(QStringLiteral("; "))));
    if (!left.isEmpty())
        parts.append(say("left as it is: %1").arg(left.join(QStringLiteral("; "))));
    if (!open.isEmpty())
        parts.append(say("not finished: %1").arg(open.join(QStringLiteral("; "))));
    if (parts.isEmpty())
        return finding.disclosed   ? say("left as it is")
               : finding.undecided ? say("nobody has decided what to do")
                                   : say("recorded; no work was opened for it");
    return parts.join(QStringLiteral(". "));
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
    if (stretch.clockSetBack)
        text += say("; the clock had been set back");
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
