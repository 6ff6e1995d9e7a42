// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/carview.h"

#include "domain/cardecide.h"
#include "kiosk/carwords.h"
#include "kiosk/historywords.h"
#include "kiosk/kioskenums.h"
#include "kiosk/photourl.h"
#include "kiosk/wallrow.h"

#include <algorithm>
#include <limits>

namespace ramplight {

CarView::CarView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed, Ticker& ticker,
                 const Catalogue& catalogue, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_feed(feed)
    , m_ticker(ticker)
    , m_catalogue(catalogue)
    , m_finding(book)
    , m_kinds(false)
    , m_places(false)
{
    connect(&desk, &Desk::carsChanged, this, &CarView::reload);
    connect(&session, &Session::personChanged, this, &CarView::rebuild);
    connect(&feed, &CardFeed::changed, this, &CarView::rebuild);
    connect(&ticker, &Ticker::minute, this, &CarView::rebuild);
    connect(&book, &SiteBook::changed, this, [this] {
        m_places.offer(placeChoices(m_book));
        rebuild();
    });
    std::vector<ChoiceRow> kinds;
    for (const OperationSpec& spec : catalogue.operations)
        kinds.push_back({spec.id, sentence(spec.title), sentence(words(spec.skill)), false});
    std::ranges::stable_sort(kinds, {}, &ChoiceRow::group);
    m_kinds.offer(std::move(kinds));
    m_places.offer(placeChoices(book));
}

// ---- what it is ------------------------------------------------------------------------------

QString CarView::makeModel() const
{
    return makeModelOf(m_car.identity);
}

QString CarView::shape() const
{
    return nameOf(m_car.identity.shape);
}

QString CarView::aboutWords() const
{
    return dotted({makeModel(), shapeColourOf(m_car.identity), placeWord()});
}

QString CarView::factWords() const
{
    const CarFacts& facts = m_car.facts;
    QStringList parts;
    if (facts.odometer > 0)
        parts.append(facts.odometerUnit == DistanceUnit::Miles ? tr("%L1 miles").arg(facts.odometer)
                                                               : tr("%L1 km").arg(facts.odometer));
    parts.append(facts.keys == 1 ? tr("1 key") : tr("%1 keys").arg(facts.keys));
    if (facts.testCertificateMonths)
        parts.append(tr("test certificate: %1 months left").arg(*facts.testCertificateMonths));
    for (const Fact fact : facts.has)
        parts.append(words(fact));
    return dotted(parts);
}

QString CarView::placeWord() const
{
    return placeOf(m_car.bay, m_car.parking, m_book);
}

QString CarView::promisedWord() const
{
    return m_book.times().day(m_car.promised, m_ticker.now());
}

QString CarView::promised() const
{
    return m_car.promised.isValid() ? m_car.promised.toString(Qt::ISODate) : QString();
}

bool CarView::late() const
{
    return !m_car.released && !m_car.left && isLate(m_car.promised, m_ticker.now(), m_book);
}

QString CarView::arrivedWords() const
{
    return m_book.times().dayAndClock(m_car.arrivedAt, m_ticker.now());
}

QString CarView::status() const
{
    return loaded() ? nameOf(statusOf(m_car, m_book.rules(), m_ticker.now())) : QString();
}

QString CarView::statusWord() const
{
    return loaded() ? words(statusOf(m_car, m_book.rules(), m_ticker.now())) : QString();
}

QString CarView::minutesWords() const
{
    int minutes = 0;
    for (const auto& [id, operation] : m_car.operations)
        minutes += minutesUntil(operation, m_ticker.now());
    return ramplight::minutesWords(minutes);
}

QString CarView::appraisalWords() const
{
    if (!loaded())
        return {};
    if (!m_car.appraised)
        return tr("The appraisal is not finished.");
    QStringList unseen;
    for (const SafetyPlace& place : notLookedAt(m_car))
        unseen.append(placeWords(place.place, m_book.rules()));
    const QString seen = tr("Looked at %1 places").arg(m_car.seen.size());
    return unseen.isEmpty()
               ? tr("%1; no safety place is left.").arg(seen)
               : tr("%1; not looked at: %2.").arg(seen, unseen.join(QStringLiteral(", ")));
}

QString CarView::outcomeWords() const
{
    const TimeWords& times = m_book.times();
    if (m_car.left)
        return dotted({sentence(words(*m_car.left)), m_car.leftWhy});
    if (m_car.released)
        return tr("Released by %1, %2")
            .arg(m_book.nameOf(m_car.released->by),
                 times.dayAndClock(m_car.released->at, m_ticker.now()));
    return m_car.heldAgainWhy.isEmpty() ? QString() : tr("Held again: %1").arg(m_car.heldAgainWhy);
}

// ---- reading ---------------------------------------------------------------------------------

void CarView::open(const QString& carId)
{
    if (m_id.text == carId) {
        reload();
        return;
    }
    close();
    m_id = CarId{carId};
    emit changed();
    reload();
}

void CarView::close()
{
    ++m_turn;
    m_id = {};
    m_car = {};
    m_envelopes.clear();
    m_fault.clear();
    m_finding.clear();
    m_ask.dismiss();
    rebuild();
}

void CarView::reload()
{
    if (m_id.isEmpty())
        return;
    const int turn = m_turn;
    whenReady(m_desk.car(m_id), this, [this, turn](const tl::expected<CarState, Failure>& car) {
        if (turn != m_turn)
            return;
        if (!car) {
            m_fault = words(car.error());
            emit changed();
        } else if (!car->exists()) {
            m_fault = tr("There is no such car any more.");
            emit changed();
        } else {
            take(*car);
        }
    });
}

void CarView::take(const CarState& car)
{
    if (car.id != m_id || car.seq < m_car.seq)
        return;
    const bool fresh = car.seq != m_car.seq;
    m_car = car;
    m_fault.clear();
    rebuild();
    if (fresh)
        readHistory();
}

void CarView::readHistory()
{
    const int turn = m_turn;
    whenReady(m_desk.history(m_id), this,
              [this, turn](const tl::expected<std::vector<CarEnvelope>, Failure>& history) {
                  if (turn != m_turn || !history)
                      return;
                  m_envelopes = *history;
                  rebuildHistory();
                  emit changed();
              });
}

// ---- the lists -------------------------------------------------------------------------------

void CarView::rebuild()
{
    const Moment now = m_ticker.now();
    if (loaded()) {
        const CarCard card = cardOf(m_car, m_book.rules());
        m_band = bandOf(card, now);
        m_marks = marksOf(card.marks);
    } else {
        m_band = Wall::NoBand;
        m_marks.clear();
    }
    m_restraints.clear();
    for (const RestraintReason& reason : restraints(m_car, now))
        m_restraints.append(restraintLine({reason.what}, reason.words));
    m_restraints.removeDuplicates();
    rebuildOperations();
    rebuildFindings();
    rebuildPhotos();
    rebuildHolds();
    rebuildHistory();
    rebuildOffers();
    emit changed();
}

void CarView::rebuildOperations()
{
    const Moment now = m_ticker.now();
    const HouseRules& rules = m_book.rules();
    std::vector<OperationRow> rows;
    for (const auto& [id, operation] : m_car.operations) {
        OperationRow row;
        row.operationId = id.value;
        row.title = operationTitle(operation.spec, operation.place, rules);
        row.placeId = operation.place.text;
        row.placeWords = sentence(placeWords(operation.place, rules));
        row.band = bandOf(operation.state);
        row.stateWord = words(operation.state);
        row.open = operation.isOpen();
        row.safety = operation.spec.safety;
        row.check = operation.spec.secondPerson == SecondPerson::Check;
        row.skill = nameOf(operation.spec.skill);
        row.skillWords = words(operation.spec.skill);
        std::vector<PersonId> people;
        for (const Segment& segment : operation.segments)
            if (segment.running())
                people.push_back(segment.person);
        if (people.empty() && !operation.assigned.isNull())
            people.push_back(operation.assigned);
        row.who = row.open ? namesOf(people, m_book) : QString();
        const int minutes = minutesUntil(operation, now);
        const int usual = operation.spec.minutes.usual;
        row.minutesWords = minutes == 0 ? tr("usually %1").arg(ramplight::minutesWords(usual))
                                        : tr("%1 of usually %2")
                                              .arg(ramplight::minutesWords(minutes),
                                                   ramplight::minutesWords(usual));
        row.whyWords = whyWords(m_car, operation, rules);
        row.notYetWords = operation.isOpen() ? whyNotYet(m_car, operation, rules, now) : QString();
        row.situationWords = situationWords(operation, m_book.times(), now);
        for (const Signature& signature : operation.signatures)
            if (!signature.voided)
                row.signedWords =
                    tr("%1: %2, %3")
                        .arg(sentence(words(signature.meaning)), m_book.nameOf(signature.by),
                             m_book.times().dayAndClock(signature.at, now));
        rows.push_back(row);
    }
    // Open before closed, then by place in the order of a walk-round, safety first at each place.
    const auto rank = [](const OperationRow& row) {
        const auto& places = allPlaces();
        const auto at = std::ranges::find(places, PlaceId{row.placeId}, &PlaceInfo::id);
        return std::tuple(!row.open, at - places.begin(), !row.safety);
    };
    std::ranges::stable_sort(rows, {}, rank);
    m_operations.setRows(std::move(rows));
}

void CarView::rebuildFindings()
{
    const Moment now = m_ticker.now();
    const HouseRules& rules = m_book.rules();
    std::vector<FindingRow> rows;
    for (const auto& [id, finding] : m_car.findings) {
        const FindingVersion& first = finding.versions.front();
        const FindingVersion& last = finding.versions.back();
        FindingRow row;
        row.findingId = id.value;
        row.placeId = last.data.place.text;
        row.words = sentence(findingWords(last.data, rules));
        row.quote = last.data.quote;
        row.byWords = QStringLiteral("%1, %2").arg(m_book.nameOf(first.by),
                                                   m_book.times().dayAndClock(first.at, now));
        row.stands = last.stands;
        row.corrected = finding.versions.size() > 1;
        if (row.corrected)
            row.correctedWords =
                tr("corrected by %1, %2: %3; before: %4")
                    .arg(m_book.nameOf(last.by), m_book.times().dayAndClock(last.at, now),
                         last.reason, findingWords(first.data, rules));
        row.undecided = finding.undecided;
        row.disclosed = finding.disclosed;
        QStringList answers;
        for (const auto& [operationId, operation] : m_car.operations)
            if (operation.state != OperationState::Withdrawn &&
                std::ranges::find(operation.findings, id) != operation.findings.end())
                answers.append(operationTitle(operation.spec, operation.place, rules));
        if (finding.disclosed)
            answers.append(tr("left and disclosed"));
        if (answers.isEmpty() && finding.undecided)
            answers.append(tr("nobody has decided yet"));
        row.answerWords = answers.join(QStringLiteral(", "));
        for (const AttachedPhoto& photo : m_car.photos)
            if (photo.finding == id)
                row.photoUrls.append(photoUrl(photo.photo, PhotoSize::Panel));
        rows.push_back(row);
    }
    m_findings.setRows(std::move(rows));
}

void CarView::rebuildPhotos()
{
    std::vector<PhotoRow> rows;
    int at = 0;
    for (const AttachedPhoto& photo : m_car.photos)
        rows.push_back(photoRow(photo, ++at));
    std::ranges::reverse(rows);
    m_photos.setRows(std::move(rows));
}

PhotoRow CarView::photoRow(const AttachedPhoto& photo, int at) const
{
    PhotoRow row;
    // The same picture may be attached to two operations: the place in the list makes it one row.
    row.photoKey = QStringLiteral("%1/%2").arg(at).arg(photo.photo.text);
    row.photoId = photo.photo.text;
    row.url = photoUrl(photo.photo, PhotoSize::Panel);
    row.fullUrl = photoUrl(photo.photo, PhotoSize::Full);
    row.moment = nameOf(photo.moment);
    row.momentWords = words(photo.moment);
    row.placeWords = photo.place.isEmpty() ? QString() : placeWords(photo.place, m_book.rules());
    row.byWords = QStringLiteral("%1, %2").arg(m_book.nameOf(photo.by),
                                               m_book.times().shortly(photo.at, m_ticker.now()));
    row.operationId = photo.operation.value;
    row.findingId = photo.finding.value;
    return row;
}

void CarView::rebuildHolds()
{
    std::vector<HoldRow> rows;
    const bool inPrep = loaded() && !m_car.released && !m_car.left;
    if (inPrep)
        for (const Hold& hold : ramplight::holds(m_car, m_book.rules(), m_ticker.now())) {
            HoldRow row;
            row.kind = nameOf(hold.kind);
            row.holdId = QStringLiteral("%1/%2/%3/%4")
                             .arg(row.kind)
                             .arg(hold.operation.value)
                             .arg(hold.place.text)
                             .arg(hold.finding.value);
            row.words = hold.words;
            row.safety = hold.safety;
            row.operationId = hold.operation.value;
            row.findingId = hold.finding.value;
            row.placeId = hold.place.text;
            switch (hold.kind) {
            case HoldKind::NotAppraised:
                row.wayWords = tr("Finish the appraisal");
                break;
            case HoldKind::UndecidedFinding:
            case HoldKind::SafetyPlaceNotSeen:
                row.wayWords = hold.operation.isNull() ? tr("Open an operation") : tr("Open it");
                break;
            case HoldKind::SafetyOperation:
            case HoldKind::OpenOperation:
            case HoldKind::Isolated:
                row.wayWords = tr("Open it");
                break;
            case HoldKind::Curing:
                break;
            }
            rows.push_back(row);
        }
    m_holds.setRows(std::move(rows));
}

void CarView::rebuildHistory()
{
    const Moment now = m_ticker.now();
    std::vector<HistoryRow> rows;
    for (const CarEnvelope& envelope : m_envelopes) {
        const HistoryWords told = historyWords(envelope.event, m_car, m_book);
        HistoryRow row;
        row.seq = envelope.seq;
        row.dayWords = sentence(m_book.times().day(m_book.times().dateOf(envelope.at), now));
        row.timeWords = m_book.times().clock(envelope.at);
        row.who = envelope.by.isNull() ? tr("the house") : m_book.nameOf(envelope.by);
        row.what = told.what;
        row.detail = told.detail;
        row.operationId = told.operation.value;
        rows.push_back(row);
    }
    std::ranges::reverse(rows);
    m_history.setRows(std::move(rows));
}

// ---- what can be done ------------------------------------------------------------------------

Offer CarView::probe(const CarCommand& command, bool shown) const
{
    return probeTogether({command}, shown);
}

Offer CarView::probeTogether(const std::vector<CarCommand>& commands, bool shown) const
{
    Offer offer;
    offer.shown = shown;
    if (!loaded())
        return offer;
    CarContext context;
    SiteState site = m_book.site();
    context.actor = m_session.person();
    if (!m_session.signedIn()) {
        // Nobody has signed in yet: ask for somebody who could do everything.
        ramplight::Person anybody;
        anybody.id = PersonId{std::numeric_limits<int>::max()};
        for (const auto& [skill, name] : Names<Skill>::table)
            anybody.skills.push_back(skill);
        for (const auto& [right, name] : Names<Right>::table)
            anybody.rights.push_back(right);
        context.actor = anybody.id;
        site.people[anybody.id] = anybody;
    }
    context.now = std::max(m_ticker.now(), m_car.lastAt);
    context.catalogue = &m_catalogue;
    context.site = &site;
    context.pinFresh = true;
    for (const CarCard& card : m_feed.cards())
        for (const CardLine& line : card.outstanding)
            if (std::ranges::find(line.people, context.actor) != line.people.end())
                context.running =
                    RunningWork{card.car, card.identity.stockNumber, line.operation, line.title};
    CarState car = m_car;
    for (const CarCommand& command : commands) {
        const auto decided = decide(car, context, command);
        if (!decided) {
            offer.why = words(decided.error());
            return offer;
        }
        for (const CarEvent& event : *decided)
            apply(car, {car.seq + 1, context.now, context.actor, {}, event});
    }
    offer.can = true;
    return offer;
}

void CarView::rebuildOffers()
{
    const bool here = loaded() && !m_car.released && !m_car.left;
    const QString some = QStringLiteral("…");
    m_releaseOffer = probe(car::Release{}, here);
    m_moveOffer = probe(car::MoveCar{{}, some}, here);
    m_leaveOffer = probe(car::LeaveUnreleased{LeavingHow::Trade, some}, here);
    m_bringBackOffer = probe(car::BringBack{some}, m_car.left.has_value());
    m_finishAppraisalOffer = probe(car::FinishAppraisal{}, here && !m_car.appraised);
    m_recordOffer = {loaded(), {}, loaded() && (m_car.released || m_car.left)};
}

void CarView::send(Ask& ask, const QString& what, const QString& why,
                   std::vector<CarCommand> commands, bool pinAgain,
                   std::function<void(const CarOutcome&)> then)
{
    CarRequest request{newCommandId(), {}, m_id, std::move(commands), pinAgain};
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

void CarView::recordFinding()
{
    const auto data = m_finding.data();
    if (!data) {
        m_ask.refuse(QStringLiteral("recordFinding"), QStringLiteral("field-missing"),
                     m_finding.fault().isEmpty() ? tr("Choose the place and what is wrong with it.")
                                                 : m_finding.fault());
        return;
    }
    send(m_ask, QStringLiteral("recordFinding"), tr("to record a finding on %1").arg(stockNumber()),
         {car::RecordFinding{*data, {}}}, false, [this](const CarOutcome&) { m_finding.clear(); });
}

void CarView::foundSound(const QStringList& placeIds)
{
    car::FindSound command;
    for (const QString& id : placeIds)
        command.places.push_back({id});
    send(m_ask, QStringLiteral("foundSound"),
         tr("to record what is sound on %1").arg(stockNumber()), {command});
}

void CarView::finishAppraisal()
{
    send(m_ask, QStringLiteral("finishAppraisal"),
         tr("to finish the appraisal of %1").arg(stockNumber()), {car::FinishAppraisal{}});
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
        [this, what, command, otherStockNumber, reason](PersonId person) {
            whenReady(m_desk.carByStockNumber(otherStockNumber.trimmed().toUpper()), this,
                      [this, what, command, reason, person,
                       keep = m_id](const tl::expected<std::optional<CarId>, Failure>& other) {
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

void CarView::takePhoto(Ask& ask, const QString& what, PhotoSource source, PhotoReady ready)
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

void CarView::attach(PhotoSource source, int findingId)
{
    const QString what = QStringLiteral("attach");
    takePhoto(m_ask, QStringLiteral("photo"), std::move(source),
              [this, what, findingId](const PhotoTaken& taken) {
                  car::AttachPhoto command;
                  command.photo = taken.photo.id;
                  command.moment = PhotoMoment::Before;
                  command.finding = FindingId{findingId};
                  if (const Finding* finding = m_car.finding(command.finding))
                      command.place = finding->data().place;
                  send(m_ask, what, tr("to add a photo to %1").arg(stockNumber()), {command}, false,
                       [this, taken](const CarOutcome&) {
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

void CarView::keepFile(const QString& path)
{
    takePhoto(
        m_ask, QStringLiteral("photo"), [this, path] { return m_desk.keepPhotoFile(path); },
        [this](const PhotoTaken& taken) { emit photoKept(taken.photo.id.text, taken.warnings); });
}

void CarView::keepFrame(const QImage& frame)
{
    takePhoto(
        m_ask, QStringLiteral("photo"), [this, frame] { return m_desk.keepPhoto(frame); },
        [this](const PhotoTaken& taken) { emit photoKept(taken.photo.id.text, taken.warnings); });
}

} // namespace ramplight
