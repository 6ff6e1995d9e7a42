// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What CarView asks of the desk: its invokables, each one command or one picture. What it shows is
// in carview.cpp.
#include "kiosk/carview.h"

#include "kiosk/carrows.h"

namespace ramplight {

void CarView::send(Ask& ask, const QString& what, const QString& why,
                   std::vector<CarCommand> commands, bool pinAgain,
                   const std::function<void(const CarOutcome&)>& then)
{
    sendTo(m_id, ask, what, why, std::move(commands), pinAgain, then);
}

void CarView::sendTo(const CarId& car, Ask& ask, const QString& what, const QString& why,
                     std::vector<CarCommand> commands, bool pinAgain,
                     const std::function<void(const CarOutcome&)>& then)
{
    CarRequest request{newCommandId(), {}, car, std::move(commands), pinAgain};
    const auto go = [this, &ask, what, request, then](PersonId person) {
        CarRequest signedRequest = request;
        signedRequest.actor = person;
        ask.send<CarOutcome>(
            what, [this, signedRequest] { return m_desk.run(signedRequest); },
            [this, then](const CarOutcome& outcome) {
                take(outcome.car);
                if (then)
                    then(outcome);
            });
    };
    if (pinAgain)
        m_session.whenPinAgain(why, go);
    else
        m_session.whenSignedIn(why, go);
}

void CarView::moveToBay(int bayId)
{
    send(m_ask, QStringLiteral("moveToBay"), tr("to move %1").arg(stockNumber()),
         {car::MoveCar{BayId{bayId}, {}}});
}

void CarView::moveToParking(const QString& words)
{
    send(m_ask, QStringLiteral("moveToParking"), tr("to move %1").arg(stockNumber()),
         {car::MoveCar{{}, words.trimmed()}});
}

void CarView::releaseToSale()
{
    send(m_ask, QStringLiteral("releaseToSale"), tr("to release %1 to sale").arg(stockNumber()),
         {car::Release{}}, true, [this](const CarOutcome&) { emit released(); });
}

void CarView::leaveUnreleased(const QString& how, const QString& reason)
{
    const auto known = fromName<LeavingHow>(how);
    if (!known) {
        m_ask.refuse(QStringLiteral("leaveUnreleased"), QStringLiteral("field-missing"),
                     tr("Choose where the car goes."));
        return;
    }
    send(m_ask, QStringLiteral("leaveUnreleased"), tr("to let %1 go unreleased").arg(stockNumber()),
         {car::LeaveUnreleased{*known, reason.trimmed()}}, true,
         [this](const CarOutcome&) { emit left(); });
}

void CarView::bringBack(const QString& reason)
{
    send(m_ask, QStringLiteral("bringBack"), tr("to bring %1 back").arg(stockNumber()),
         {car::BringBack{reason.trimmed()}});
}

void CarView::editFinding(int findingId)
{
    if (const Finding* finding = m_car.finding(FindingId{findingId}))
        m_finding.start(finding->data());
}

void CarView::correctFinding(int findingId, bool stands, const QString& reason,
                             const QString& photoId)
{
    const Finding* finding = m_car.finding(FindingId{findingId});
    const auto data = stands               ? m_finding.data()
                      : finding == nullptr ? std::nullopt
                                           : std::optional(finding->data());
    if (!data) {
        m_ask.refuse(QStringLiteral("correctFinding"), QStringLiteral("field-missing"),
                     tr("Choose the place and what is wrong with it."));
        return;
    }
    send(m_ask, QStringLiteral("correctFinding"),
         tr("to correct a finding on %1").arg(stockNumber()),
         {car::CorrectFinding{FindingId{findingId}, *data, stands, reason.trimmed(), {photoId}}},
         false, [this](const CarOutcome&) { m_finding.clear(); });
}

void CarView::offerKinds(const QString& placeId)
{
    m_kindsFor = PlaceId{placeId};
    m_kinds.clear();
    m_kinds.offer(kindChoices(m_book.catalogue(), m_kindsFor));
}

void CarView::openOperation(const QString& kind, const QString& placeId, const QString& reason)
{
    send(m_ask, QStringLiteral("openOperation"), tr("to open work on %1").arg(stockNumber()),
         {car::OpenOperation{kind, {placeId}, reason.trimmed()}});
}

void CarView::withdrawOperation(int operationId, const QString& reason)
{
    send(m_ask, QStringLiteral("withdrawOperation"),
         tr("to withdraw work on %1").arg(stockNumber()),
         {car::WithdrawOperation{OperationId{operationId}, reason.trimmed()}});
}

void CarView::changePromise(const QString& isoDate, const QString& reason)
{
    send(m_ask, QStringLiteral("changePromise"),
         tr("to change the promise of %1").arg(stockNumber()),
         {car::ChangePromise{QDate::fromString(isoDate, Qt::ISODate), reason.trimmed()}});
}

bool CarView::showsLess(int odometer) const
{
    const std::optional<OdometerReading> before = m_car.lastOdometer();
    return before && ramplight::showsLess(odometer, before->unit, before->value, before->unit);
}

void CarView::readOdometer(int odometer, const QString& reason)
{
    send(m_ask, QStringLiteral("readOdometer"), tr("to read the odometer of %1").arg(stockNumber()),
         {car::ReadOdometer{odometer, unitOfOdometer(), {}, reason.trimmed()}});
}

void CarView::editIdentity()
{
    m_identity.start(m_car.identity, m_car.facts);
}

void CarView::correctIdentity(const QString& reason)
{
    send(m_ask, QStringLiteral("correctIdentity"), tr("to correct %1").arg(stockNumber()),
         {car::CorrectIdentity{m_identity.identity(), reason.trimmed()}});
}

void CarView::correctFacts(const QString& reason, const QString& photoId)
{
    send(m_ask, QStringLiteral("correctFacts"), tr("to correct %1").arg(stockNumber()),
         {car::CorrectFacts{m_identity.carFacts(), reason.trimmed(), {photoId}}});
}

void CarView::linkDuplicate(const QString& otherStockNumber, const QString& reason)
{
    const QString what = QStringLiteral("linkDuplicate");
    const CommandId command = newCommandId();
    m_session.whenSignedIn(
        tr("to join %1 and %2").arg(stockNumber(), otherStockNumber),
        [this, what, command, otherStockNumber, reason, keep = m_id](PersonId person) {
            whenReady(m_desk.carByStockNumber(otherStockNumber.trimmed().toUpper()), this,
                      [this, what, command, reason, person,
                       keep](const tl::expected<std::optional<CarId>, Failure>& other) {
                          if (!other) {
                              m_ask.refuse(what, QStringLiteral("store"), words(other.error()));
                          } else if (!*other) {
                              m_ask.refuse(what, QStringLiteral("car-missing"),
                                           tr("No car has this stock number. Look at the other "
                                              "entry and type it as it is written there."));
                          } else {
                              m_ask.send<CarOutcome>(
                                  what,
                                  [this, command, person, keep, second = **other, reason] {
                                      return m_desk.mergeDuplicate(command, person, keep, second,
                                                                   reason.trimmed());
                                  },
                                  [this](const CarOutcome& outcome) { take(outcome.car); });
                          }
                      });
        });
}

// ---- photos ----------------------------------------------------------------------------------

void CarView::takePhoto(Ask& ask, const QString& what, const PhotoSource& source,
                        const PhotoReady& ready)
{
    if (!ask.begin(what,
                   [this, &ask, what, source, ready] { takePhoto(ask, what, source, ready); }))
        return;
    whenReady(source(), &ask, [&ask, ready](const tl::expected<PhotoTaken, EvidenceError>& photo) {
        if (!photo) {
            ask.fail(QStringLiteral("photo"), words(photo.error()), true);
            return;
        }
        ask.succeed();
        ready(*photo);
    });
}

void CarView::attach(const PhotoSource& source, int findingId)
{
    // Keeping a picture takes a while: it belongs to the car that was open when it was taken.
    car::AttachPhoto command;
    command.moment = PhotoMoment::Before;
    command.finding = FindingId{findingId};
    if (const Finding* finding = m_car.finding(command.finding))
        command.place = finding->data().place;
    const QString why = tr("to add a photo to %1").arg(stockNumber());
    takePhoto(m_ask, QStringLiteral("photo"), source,
              [this, car = m_id, command, why](const PhotoTaken& taken) {
                  car::AttachPhoto attached = command;
                  attached.photo = taken.photo.id;
                  sendTo(car, m_ask, QStringLiteral("attach"), why, {attached}, false,
                         [this, car, taken](const CarOutcome&) {
                             if (car == m_id)
                                 emit photoKept(taken.photo.id.text, taken.warnings);
                         });
              });
}

void CarView::attachFile(const QString& path, int findingId)
{
    attach([this, path] { return m_desk.keepPhotoFile(path); }, findingId);
}

void CarView::attachFrame(const QImage& frame, int findingId)
{
    attach([this, frame] { return m_desk.keepPhoto(frame); }, findingId);
}

void CarView::keep(const PhotoSource& source)
{
    takePhoto(m_ask, QStringLiteral("photo"), source, [this, car = m_id](const PhotoTaken& taken) {
        if (car == m_id)
            emit photoKept(taken.photo.id.text, taken.warnings);
    });
}

void CarView::keepFile(const QString& path)
{
    keep([this, path] { return m_desk.keepPhotoFile(path); });
}

void CarView::keepFrame(const QImage& frame)
{
    keep([this, frame] { return m_desk.keepPhoto(frame); });
}

} // namespace ramplight
