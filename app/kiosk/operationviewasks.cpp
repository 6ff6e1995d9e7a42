// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What OperationView asks of the desk: its invokables, each one command or one picture. What it
// shows is in operationview.cpp.
#include "kiosk/operationview.h"

#include "kiosk/readingrows.h"

#include <algorithm>

namespace ramplight {

QString OperationView::why() const
{
    return tr("for %1: %2").arg(m_view.stockNumber(), title());
}

void OperationView::send(const QString& what, std::vector<CarCommand> commands,
                         const std::function<void(const CarOutcome&)>& then)
{
    m_view.sendTo(m_car, m_ask, what, why(), std::move(commands), false, then);
}

void OperationView::readCautions()
{
    send(QStringLiteral("readCautions"), {car::ReadCautions{m_id}});
}

void OperationView::start()
{
    send(QStringLiteral("start"), {car::StartWork{m_id}});
}

void OperationView::readAndStart()
{
    const Operation* o = operation();
    if (o == nullptr || o->spec->cautions.isEmpty())
        return start();
    // Reading them again changes nothing, so it need not matter whether this person has.
    send(QStringLiteral("readAndStart"), {car::ReadCautions{m_id}, car::StartWork{m_id}});
}

void OperationView::pause()
{
    send(QStringLiteral("pause"), {car::PauseWork{m_id, m_session.person(), StopKind::Paused}});
}

void OperationView::pauseForgotten()
{
    if (std::vector<CarCommand> pauses = forgottenPauses(); !pauses.empty())
        send(QStringLiteral("pauseForgotten"), std::move(pauses));
}

void OperationView::handOver(int personId)
{
    send(QStringLiteral("handOver"), {car::HandOver{m_id, PersonId{personId}}});
}

const ReadingSpec* OperationView::specOf(const QString& rowId, PlaceId& place) const
{
    const Operation* o = operation();
    if (o == nullptr)
        return nullptr;
    for (const ReadingRow& row : m_readings.rows())
        if (row.rowId == rowId) {
            place = PlaceId{row.placeId};
            const auto spec =
                std::ranges::find(o->spec->readings, row.readingKey, &ReadingSpec::key);
            return spec == o->spec->readings.end() ? nullptr : &*spec;
        }
    return nullptr;
}

std::optional<ReadingValue> OperationView::parse(const ReadingSpec& spec, const QString& text,
                                                 const QString& what)
{
    const auto value = typedReading(spec, text);
    if (value)
        return *value;
    m_ask.refuse(what, QStringLiteral("reading-malformed"), value.error());
    return std::nullopt;
}

void OperationView::takeReading(const QString& rowId, const QString& text)
{
    const QString what = QStringLiteral("takeReading");
    PlaceId place;
    if (const ReadingSpec* spec = specOf(rowId, place))
        if (const auto value = parse(*spec, text, what))
            send(what, {car::TakeReading{m_id, spec->key, place, *value,
                                         spec->tool ? m_tools.current(*spec->tool) : ToolId{}}});
}

void OperationView::chooseTool(const QString& rowId, int toolId)
{
    PlaceId place;
    const ReadingSpec* spec = specOf(rowId, place);
    if (spec == nullptr || !spec->tool)
        return;
    m_tools.take(*spec->tool, ToolId{toolId});
    rebuild();
}

void OperationView::setFigure(const QString& rowId, const QString& text, const QString& source)
{
    const QString what = QStringLiteral("setFigure");
    PlaceId place;
    if (const ReadingSpec* spec = specOf(rowId, place))
        if (const auto value = parse(*spec, text, what))
            send(what, {car::SetFigure{m_id, spec->key, place, value->number.value_or(0),
                                       source.trimmed()}});
}

void OperationView::correctFigure(const QString& rowId, const QString& text, const QString& source,
                                  const QString& reason, const QString& photoId)
{
    const QString what = QStringLiteral("correctFigure");
    PlaceId place;
    if (const ReadingSpec* spec = specOf(rowId, place))
        if (const auto value = parse(*spec, text, what))
            send(what, {car::CorrectFigure{m_id,
                                           spec->key,
                                           place,
                                           value->number.value_or(0),
                                           source.trimmed(),
                                           reason.trimmed(),
                                           {photoId}}});
}

void OperationView::correctReading(int readingId, const QString& text, const QString& reason,
                                   const QString& photoId)
{
    const QString what = QStringLiteral("correctReading");
    const Operation* o = operation();
    if (o == nullptr)
        return;
    const auto reading = std::ranges::find(o->readings, ReadingId{readingId}, &Reading::id);
    if (reading == o->readings.end())
        return;
    const auto spec = std::ranges::find(o->spec->readings, reading->key, &ReadingSpec::key);
    if (spec == o->spec->readings.end())
        return;
    // The tool stays what it was; one that was not entered then may be by now.
    const bool asksTool = spec->tool && !reading->tool.isEntered();
    if (const auto value = parse(*spec, text, what))
        send(what, {car::CorrectReading{m_id,
                                        reading->id,
                                        *value,
                                        reason.trimmed(),
                                        {photoId},
                                        asksTool ? m_tools.current(*spec->tool) : ToolId{}}});
}

std::optional<PhotoTarget> OperationView::photoTarget(const QString& moment) const
{
    if (operation() == nullptr)
        return std::nullopt;
    return photoOfWork(m_view.car(), m_id, moment, m_book.rules());
}

void OperationView::attach(const std::vector<CarView::PhotoSource>& sources, const QString& moment)
{
    const auto target = photoTarget(moment);
    if (!target)
        return;
    m_view.attachTo(m_ask, *target, sources, [this](const std::vector<PhotoTaken>& kept) {
        QStringList warnings;
        for (const PhotoTaken& photo : kept)
            warnings.append(photo.warnings);
        warnings.removeDuplicates();
        emit photoWarnings(warnings);
    });
}

void OperationView::attachFiles(const QStringList& paths, const QString& moment)
{
    attach(m_view.filesOf(paths), moment);
}

void OperationView::attachFrame(const QImage& frame, const QString& moment)
{
    attach(m_view.frameOf(frame), moment);
}

void OperationView::signOff()
{
    send(QStringLiteral("signOff"), {car::SignOff{m_id, m_note.trimmed()}},
         [this, car = m_car, id = m_id](const CarOutcome&) {
             // Somebody may have gone on to other work: its note and its screen stay.
             if (car != m_car || id != m_id)
                 return;
             setNote({});
             emit signedOff();
         });
}

void OperationView::countersign()
{
    send(QStringLiteral("countersign"), {car::Countersign{m_id}},
         [this](const CarOutcome&) { emit signedOff(); });
}

void OperationView::failCheck(const QString& reason)
{
    send(QStringLiteral("failCheck"), {car::FailCheck{m_id, reason.trimmed(), {}}});
}

void OperationView::failCheckOf(int operationId, const QString& reason)
{
    send(QStringLiteral("failCheck"),
         {car::FailCheck{m_id, reason.trimmed(), OperationId{operationId}}});
}

void OperationView::reopen(const QString& reason)
{
    send(QStringLiteral("reopen"), {car::Reopen{m_id, reason.trimmed()}});
}

void OperationView::leaveAsIs(const QString& wordsForTheBuyer)
{
    send(QStringLiteral("leaveAsIs"), {car::LeaveAsIs{m_id, wordsForTheBuyer.trimmed()}});
}

void OperationView::withdraw(const QString& reason)
{
    send(QStringLiteral("withdraw"), {car::WithdrawOperation{m_id, reason.trimmed()}});
}

void OperationView::blockForPart(const QString& part, const QString& supplier,
                                 const QString& isoDue)
{
    send(QStringLiteral("blockForPart"),
         {car::BlockForPart{
             m_id, {part.trimmed(), supplier.trimmed(), QDate::fromString(isoDue, Qt::ISODate)}}});
}

void OperationView::unblock()
{
    send(QStringLiteral("unblock"), {car::Unblock{m_id}});
}

void OperationView::sendOut(const QString& firm, const QString& isoDueBack, int keys,
                            const QString& document)
{
    OutsideWork work;
    work.firm = firm.trimmed();
    work.dueBack = QDate::fromString(isoDueBack, Qt::ISODate);
    work.keys = keys;
    work.document = document.trimmed();
    send(QStringLiteral("sendOut"), {car::SendOut{m_id, work}});
}

void OperationView::receiveBack(const QString& document, int keys)
{
    car::ReceiveBack back{m_id, document.trimmed()};
    if (keysOut() > 0)
        back.keys = keys;
    send(QStringLiteral("receiveBack"), {back});
}

void OperationView::changeDue(const QString& isoDue, const QString& reason)
{
    send(QStringLiteral("changeDue"),
         {car::ChangeDue{m_id, QDate::fromString(isoDue, Qt::ISODate), reason.trimmed()}});
}

void OperationView::isolate(const QString& lockKeptAt)
{
    send(QStringLiteral("isolate"), {car::SetIsolation{m_id, lockKeptAt.trimmed()}});
}

void OperationView::liftIsolation(const QString& procedure)
{
    send(QStringLiteral("liftIsolation"), {car::LiftIsolation{m_id, procedure.trimmed()}});
}

void OperationView::correctMinutes(int segmentId, int minutes, const QString& reason)
{
    send(QStringLiteral("correctMinutes"),
         {car::CorrectMinutes{m_id, SegmentId{segmentId}, minutes, reason.trimmed()}});
}

} // namespace ramplight
