// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What CarView asks of the desk: its invokables, each one command or one picture. What it shows is
// in carview.cpp.
#include "kiosk/carview.h"

#include "kiosk/carrows.h"
#include "kiosk/seenbefore.h"

#include <QFileInfo>

namespace ramplight {

namespace {

DistanceUnit unitOf(bool kilometres)
{
    return kilometres ? DistanceUnit::Kilometres : DistanceUnit::Miles;
}

} // namespace

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
        m_session.whenPinAgain(why, go, request.id);
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
    send(m_ask, QStringLiteral("leaveUnreleased"),
         (m_car.released ? tr("to let %1 go another way") : tr("to let %1 go unreleased"))
             .arg(stockNumber()),
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

void CarView::changePromise(const QString& isoDate, const QString& importance,
                            const QString& reason)
{
    send(m_ask, QStringLiteral("changePromise"),
         tr("to change the promise of %1").arg(stockNumber()),
         {car::ChangePromise{QDate::fromString(isoDate, Qt::ISODate), reason.trimmed(),
                             fromName<PromiseImportance>(importance)}});
}

bool CarView::showsLess(int odometer, bool kilometres) const
{
    const std::optional<OdometerReading> before = m_car.lastOdometer();
    return before &&
           ramplight::showsLess(odometer, unitOf(kilometres), before->value, before->unit);
}

void CarView::readOdometer(int odometer, bool kilometres, const QString& reason)
{
    send(m_ask, QStringLiteral("readOdometer"), tr("to read the odometer of %1").arg(stockNumber()),
         {car::ReadOdometer{odometer, unitOf(kilometres), {}, reason.trimmed()}});
}

void CarView::editIdentity()
{
    m_identity.start(m_car.identity, m_car.facts);
}

void CarView::correctIdentity(const QString& reason)
{
    send(m_ask, QStringLiteral("correctIdentity"), tr("to correct %1").arg(stockNumber()),
         {car::CorrectIdentity{m_identity.identity(), reason.trimmed(),
                               m_identity.identityBefore()}});
}

void CarView::correctFacts(const QString& reason, const QString& photoId)
{
    send(m_ask, QStringLiteral("correctFacts"), tr("to correct %1").arg(stockNumber()),
         {car::CorrectFacts{
             m_identity.carFacts(), reason.trimmed(), {photoId}, m_identity.factsBefore()}});
}

void CarView::linkDuplicate(const QString& otherStockNumber, const QString& reason)
{
    const QString what = QStringLiteral("linkDuplicate");
    const CommandId command = newCommandId();
    m_session.whenSignedIn(
        tr("to join %1 and %2").arg(stockNumber(), otherStockNumber),
        [this, what, command, otherStockNumber, reason, keep = m_id](PersonId person) {
            whenReady(m_desk.carByStockNumber(otherStockNumber.trimmed()), this,
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

std::vector<CarView::PhotoSource> CarView::filesOf(const QStringList& paths)
{
    std::vector<PhotoSource> sources;
    for (const QString& path : paths)
        sources.push_back(
            {QFileInfo(path).fileName(), [this, path] { return m_desk.keepPhotoFile(path); }});
    return sources;
}

std::vector<CarView::PhotoSource> CarView::frameOf(const QImage& frame)
{
    PhotoSource source;
    source.keep = [this, frame] { return m_desk.keepPhoto(frame); };
    return {source};
}

void CarView::takePhotos(
    Ask& ask, const std::vector<PhotoSource>& sources,
    const std::function<void(const std::vector<PhotoTaken>&, const QStringList&)>& ready)
{
    using Kept = QFuture<tl::expected<PhotoTaken, EvidenceError>>;
    const QString what = QStringLiteral("photo");
    if (sources.empty() ||
        !ask.begin(what, [this, &ask, sources, ready] { takePhotos(ask, sources, ready); }))
        return;
    QList<Kept> coming;
    for (const PhotoSource& source : sources)
        coming.append(source.keep());
    // The future owns what is called then.
    // NOLINTNEXTLINE(clang-analyzer-cplusplus.NewDeleteLeaks)
    whenReady(QtFuture::whenAll(coming.begin(), coming.end()), &ask,
              [&ask, what, sources, ready](const QList<Kept>& all) {
                  std::vector<PhotoTaken> kept;
                  QStringList refused;
                  for (qsizetype at = 0; at < all.size(); ++at) {
                      if (all[at].resultCount() == 0)
                          return; // the program is closing
                      const auto photo = all[at].result();
                      const QString& name = sources[static_cast<std::size_t>(at)].name;
                      if (photo)
                          kept.push_back(*photo);
                      else if (all.size() == 1)
                          refused.append(words(photo.error()));
                      else
                          refused.append(tr("%1: %2").arg(name, words(photo.error())));
                  }
                  if (kept.empty()) {
                      ask.fail(what, refused.join(QLatin1Char(' ')), true);
                      return;
                  }
                  ask.succeed();
                  ready(kept, refused);
              });
}

void CarView::attachTo(Ask& ask, const PhotoTarget& target, const std::vector<PhotoSource>& sources,
                       const std::function<void(const std::vector<PhotoTaken>&)>& then)
{
    takePhotos(ask, sources,
               [this, &ask, target, then](const std::vector<PhotoTaken>& kept,
                                          const QStringList& refused) {
                   whenReady(m_desk.car(target.car), &ask,
                             [this, &ask, target, kept, refused,
                              then](const tl::expected<CarState, Failure>& car) {
                                 // Where it cannot be read, who is asked to write says so.
                                 attachKept(ask, target, car ? *car : m_car, kept, refused, then);
                             });
               });
}

void CarView::attachKept(Ask& ask, const PhotoTarget& target, const CarState& now,
                         const std::vector<PhotoTaken>& kept, const QStringList& refused,
                         const std::function<void(const std::vector<PhotoTaken>&)>& then)
{
    std::vector<CarCommand> commands;
    for (const PhotoTaken& photo : kept) {
        const auto command = target.with(photo.photo.id, now);
        if (!command) {
            ask.refuse(QStringLiteral("photo"), QStringLiteral("photo"), PhotoTarget::goneWords());
            return;
        }
        commands.emplace_back(*command);
    }
    sendTo(target.car, ask, QStringLiteral("attach"), target.why, std::move(commands), false,
           [this, &ask, target, kept, refused, then](const CarOutcome& outcome) {
               tellSeenBefore(m_desk, &ask, target, outcome.car, kept, then);
               // The rest is taken: once that is told.
               if (!refused.isEmpty())
                   QMetaObject::invokeMethod(
                       &ask,
                       [&ask, refused] {
                           ask.refuse(QStringLiteral("photo"), QStringLiteral("photo"),
                                      tr("Not taken: %1").arg(refused.join(QLatin1Char(' '))));
                       },
                       Qt::QueuedConnection);
           });
}

void CarView::attach(const std::vector<PhotoSource>& sources, int findingId)
{
    attachTo(m_ask, photoOfFinding(m_car, FindingId{findingId}), sources,
             [this, car = m_id](const std::vector<PhotoTaken>& kept) {
                 if (car != m_id)
                     return;
                 for (const PhotoTaken& photo : kept)
                     emit photoKept(photo.photo.id.text, photo.warnings);
             });
}

void CarView::attachFiles(const QStringList& paths, int findingId)
{
    attach(filesOf(paths), findingId);
}

void CarView::attachFrame(const QImage& frame, int findingId)
{
    attach(frameOf(frame), findingId);
}

void CarView::keep(const std::vector<PhotoSource>& sources)
{
    takePhotos(m_ask, sources,
               [this, car = m_id](const std::vector<PhotoTaken>& kept, const QStringList&) {
                   if (car == m_id)
                       emit photoKept(kept.front().photo.id.text, kept.front().warnings);
               });
}

void CarView::keepFile(const QString& path)
{
    keep(filesOf({path}));
}

void CarView::keepFrame(const QImage& frame)
{
    keep(frameOf(frame));
}

} // namespace ramplight
