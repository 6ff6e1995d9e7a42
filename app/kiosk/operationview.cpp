// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/operationview.h"

#include "kiosk/carwords.h"
#include "kiosk/kioskenums.h"
#include "kiosk/photourl.h"
#include "kiosk/typednumber.h"

#include <algorithm>

namespace ramplight {

namespace {

/// The limit or figure itself as the reading's own unit says it.
QString figureWordsOf(const ReadingSpec& spec, const Figure& figure, const SiteBook& book)
{
    return QStringLiteral("%1, %2, %3")
        .arg(valueWords(figure.value, spec.decimals, spec.unit), figure.source,
             book.nameOf(figure.by));
}

QString rowIdOf(const ReadingSpec& spec, const PlaceId& place)
{
    return place.isEmpty() ? spec.key : QStringLiteral("%1@%2").arg(spec.key, place.text);
}

int inputOf(ReadingKind kind)
{
    switch (kind) {
    case ReadingKind::Limit:
        return ReadingKinds::Limit;
    case ReadingKind::Figure:
        return ReadingKinds::Figure;
    case ReadingKind::Record:
        return ReadingKinds::Record;
    case ReadingKind::Choice:
        return ReadingKinds::Choice;
    case ReadingKind::Text:
        return ReadingKinds::Text;
    }
    return ReadingKinds::Text;
}

bool isNumber(const ReadingSpec& spec)
{
    return spec.kind != ReadingKind::Choice && spec.kind != ReadingKind::Text;
}

} // namespace

OperationView::OperationView(Desk& desk, CarView& car, Session& session, SiteBook& book,
                             Ticker& ticker, const Catalogue& catalogue, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_view(car)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
    , m_catalogue(catalogue)
    , m_colleagues(false)
    , m_checkedWork(false)
{
    connect(&car, &CarView::changed, this, &OperationView::rebuild);
    connect(&ticker, &Ticker::minute, this, &OperationView::ticked);
}

const Operation* OperationView::operation() const
{
    return m_view.car().operation(m_id);
}

// ---- what it is ------------------------------------------------------------------------------

QString OperationView::title() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : operationTitle(o->spec, o->place, m_book.rules());
}

QString OperationView::placeId() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : o->place.text;
}

QString OperationView::placeWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : ramplight::placeWords(o->place, m_book.rules());
}

QString OperationView::whyWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : ramplight::whyWords(m_view.car(), *o, m_book.rules());
}

QString OperationView::stateWord() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : words(o->state);
}

int OperationView::band() const
{
    const Operation* o = operation();
    return o == nullptr ? static_cast<int>(Wall::NoBand) : bandOf(o->state);
}

bool OperationView::safety() const
{
    const Operation* o = operation();
    return o != nullptr && o->spec.safety;
}

bool OperationView::check() const
{
    const Operation* o = operation();
    return o != nullptr && o->spec.secondPerson == SecondPerson::Check;
}

bool OperationView::countersigned() const
{
    const Operation* o = operation();
    return o != nullptr && o->spec.secondPerson == SecondPerson::Countersign;
}

QString OperationView::skillWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : words(o->spec.skill);
}

QString OperationView::situationWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : ramplight::situationWords(*o, m_book.times(), m_ticker.now());
}

QStringList OperationView::opensWords() const
{
    QStringList titles;
    const Operation* o = operation();
    if (o == nullptr || !o->isOpen())
        return titles;
    for (const Trigger& trigger : o->spec.triggers) {
        if (trigger.ifFact && !m_view.car().facts.is(*trigger.ifFact))
            continue;
        if (const OperationSpec* spec = m_catalogue.find(trigger.opens))
            titles.append(sentence(spec->title));
    }
    return titles;
}

QStringList OperationView::signatureWords() const
{
    QStringList lines;
    const Operation* o = operation();
    if (o == nullptr)
        return lines;
    for (const Signature& signature : o->signatures) {
        QString line = tr("%1: %2, %3")
                           .arg(sentence(words(signature.meaning)), m_book.nameOf(signature.by),
                                m_book.times().dayAndClock(signature.at, m_ticker.now()));
        if (!signature.note.isEmpty())
            line += QStringLiteral(" (%1)").arg(signature.note);
        if (signature.voided)
            line += tr(", void: opened again");
        lines.append(line);
    }
    return lines;
}

// ---- cautions and time -----------------------------------------------------------------------

bool OperationView::cautionsRead() const
{
    const Operation* o = operation();
    return o != nullptr &&
           (o->spec.cautions.isEmpty() || o->cautionsReadBy.contains(m_session.person()));
}

QString OperationView::cautionsReadWords() const
{
    const Operation* o = operation();
    if (o == nullptr)
        return {};
    // Newest first: who has read them, and when.
    QStringList readers;
    std::set<PersonId> told;
    const auto& envelopes = m_view.envelopes();
    for (auto it = envelopes.rbegin(); it != envelopes.rend(); ++it) {
        const auto* read = std::get_if<CautionsRead>(&it->event);
        if (read == nullptr || read->operation != m_id || !o->cautionsReadBy.contains(it->by) ||
            !told.insert(it->by).second)
            continue;
        readers.append(QStringLiteral("%1 %2").arg(m_book.nameOf(it->by),
                                                   m_book.times().shortly(it->at, m_ticker.now())));
    }
    return readers.isEmpty() ? QString() : tr("read by %1").arg(readers.join(QStringLiteral(", ")));
}

QString OperationView::usualWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : minutesSpan(o->spec.minutes.low, o->spec.minutes.high);
}

int OperationView::usualMinutes() const
{
    const Operation* o = operation();
    return o == nullptr ? 0 : o->spec.minutes.usual;
}

int OperationView::highMinutes() const
{
    const Operation* o = operation();
    return o == nullptr ? 0 : o->spec.minutes.high;
}

bool OperationView::running() const
{
    const Operation* o = operation();
    return o != nullptr && o->isRunning();
}

bool OperationView::myRunning() const
{
    const Operation* o = operation();
    return o != nullptr && std::ranges::any_of(o->segments, [&](const Segment& segment) {
               return segment.running() && segment.person == m_session.person();
           });
}

QString OperationView::timer() const
{
    return timerWords(minutes());
}

int OperationView::minutes() const
{
    const Operation* o = operation();
    return o == nullptr ? 0 : minutesUntil(*o, m_ticker.now());
}

int OperationView::myMinutes() const
{
    const Operation* o = operation();
    return o == nullptr ? 0 : minutesUntil(*o, m_session.person(), m_ticker.now());
}

QString OperationView::startedWords() const
{
    const Operation* o = operation();
    if (o == nullptr || o->segments.empty())
        return {};
    return tr("started %1").arg(m_book.times().shortly(o->segments.front().start, m_ticker.now()));
}

QString OperationView::peopleWords() const
{
    const Operation* o = operation();
    std::vector<PersonId> people;
    if (o != nullptr)
        for (const Segment& segment : o->segments)
            if (segment.running())
                people.push_back(segment.person);
    return namesOf(people, m_book);
}

void OperationView::setNote(const QString& note)
{
    if (m_note == note)
        return;
    m_note = note;
    emit noteChanged();
}

// ---- building --------------------------------------------------------------------------------

void OperationView::open(const QString& carId, int operationId)
{
    if (m_id.value != operationId || m_view.carId() != carId) {
        m_ask.dismiss();
        setNote({});
    }
    m_id = OperationId{operationId};
    m_view.open(carId);
    rebuild();
}

void OperationView::close()
{
    m_id = {};
    m_ask.dismiss();
    setNote({});
    rebuild();
}

void OperationView::rebuild()
{
    const Operation* o = operation();
    static const Operation none;
    const Operation& shown = o == nullptr ? none : *o;

    std::vector<CautionRow> cautions;
    for (const QString& caution : shown.spec.cautions)
        cautions.push_back({static_cast<int>(cautions.size()) + 1, caution});
    m_cautions.setRows(std::move(cautions));

    std::vector<ChoiceRow> colleagues;
    for (const auto& [id, person] : m_book.site().people)
        if (o != nullptr && person.active && id != m_session.person() &&
            person.has(shown.spec.skill))
            colleagues.push_back({QString::number(id.value), m_book.nameOf(id), {}, false});
    m_colleagues.offer(std::move(colleagues));
    m_checkedWork.offer(coveredBy(shown));

    rebuildReadings(shown);
    rebuildPhotos(shown);
    rebuildSegments(shown);
    m_missing = o == nullptr || !shown.isOpen()
                    ? QStringList()
                    : missingEvidence(shown, m_view.car(), m_book.rules());
    rebuildOffers(shown);
    emit changed();
    emit ticked();
}

std::vector<ChoiceRow> OperationView::coveredBy(const Operation& check) const
{
    std::vector<ChoiceRow> rows;
    if (check.spec.secondPerson != SecondPerson::Check)
        return rows;
    const QStringList& kinds = check.spec.checksWorkOf;
    for (const auto& [id, other] : m_view.car().operations)
        if (other.state == OperationState::Closed && id != check.id &&
            (kinds.contains(other.spec.id) || kinds.contains(QStringLiteral("*")) ||
             std::ranges::find(check.restsOn, id) != check.restsOn.end()))
            rows.push_back({QString::number(id.value),
                            operationTitle(other.spec, other.place, m_book.rules()),
                            {},
                            false});
    return rows;
}

void OperationView::rebuildReadings(const Operation& operation)
{
    std::vector<ReadingRow> rows;
    for (const ReadingSpec& spec : operation.spec.readings) {
        const std::vector<PlaceId> places =
            spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
        for (const PlaceId& place : places)
            rows.push_back(readingRow(operation, spec, place));
    }
    m_readings.setRows(std::move(rows));
}

ReadingRow OperationView::readingRow(const Operation& operation, const ReadingSpec& spec,
                                     const PlaceId& place) const
{
    ReadingRow row;
    row.rowId = rowIdOf(spec, place);
    row.readingKey = spec.key;
    row.title = spec.title;
    row.placeId = place.text;
    row.placeWords = place.isEmpty() ? QString() : ramplight::placeWords(place, m_book.rules());
    row.input = inputOf(spec.kind);
    row.unitWords = ramplight::unitWords(spec.unit);
    row.decimals = spec.decimals;
    row.optional = spec.optional;

    std::vector<Limit> limits = spec.limits;
    const Figure* figure = operation.figure(spec.key, place);
    row.figureNeeded = spec.neededFrom.has_value();
    row.figureMissing = row.figureNeeded && figure == nullptr;
    if (spec.neededFrom)
        row.figureFrom = words(*spec.neededFrom);
    if (figure != nullptr)
        row.figureWords = figureWordsOf(spec, *figure, m_book);
    if (figure != nullptr && spec.kind == ReadingKind::Limit) {
        Limit own;
        own.owner = spec.neededFrom.value_or(LimitOwner::VehicleData);
        own.source = figure->source;
        (spec.neededIsMax ? own.max : own.min) = figure->value;
        limits.push_back(own);
    }
    row.limitWords = limitWords(spec, limits);

    if (const Reading* reading = operation.reading(spec.key, place)) {
        row.hasValue = true;
        row.valueWords = readingWords(spec, reading->value);
        row.valueText = reading->value.number ? typedText(*reading->value.number, spec.decimals)
                                              : reading->value.text;
        row.readingId = reading->id.value;
        row.byWords = QStringLiteral("%1, %2").arg(
            m_book.nameOf(reading->by), m_book.times().shortly(reading->at, m_ticker.now()));
        switch (reading->outcome) {
        case ReadingOutcome::Recorded:
            row.outcome = ReadingKinds::Recorded;
            break;
        case ReadingOutcome::Inside:
            row.outcome = ReadingKinds::Inside;
            row.outcomeWords = tr("inside");
            break;
        case ReadingOutcome::Outside:
            row.outcome = ReadingKinds::Outside;
            row.outcomeWords = tr("outside its limit: measure again after the work");
            break;
        }
    }
    QStringList earlier;
    for (const Reading& reading : operation.readings)
        if (reading.superseded && reading.key == spec.key && reading.place == place)
            earlier.append(readingWords(spec, reading.value));
    if (!earlier.isEmpty())
        row.earlierWords = tr("before: %1").arg(earlier.join(QStringLiteral(", ")));

    for (const ChoiceOption& option : spec.options) {
        row.optionIds.append(option.id);
        row.optionTitles.append(option.title);
        const OperationSpec* opens =
            option.opens.isEmpty() ? nullptr : m_catalogue.find(option.opens);
        row.optionWords.append(opens != nullptr ? tr("opens: %1").arg(opens->title)
                               : option.closes  ? QString()
                                                : tr("stays open"));
    }
    return row;
}

void OperationView::rebuildPhotos(const Operation& operation)
{
    const std::vector<AttachedPhoto>& all = m_view.car().photos;
    std::vector<PhotoRow> photos;
    const auto counts = [&](const AttachedPhoto& photo) {
        if (photo.operation.isNull())
            return photo.moment == PhotoMoment::Before &&
                   std::ranges::find(operation.findings, photo.finding) != operation.findings.end();
        return photo.operation == operation.id;
    };
    for (std::size_t i = 0; i < all.size(); ++i)
        if (!operation.id.isNull() && counts(all[i]))
            photos.push_back(m_view.photoRow(all[i], static_cast<int>(i) + 1));

    // As missingEvidence() counts them: so many of a moment, whichever of them it is.
    std::vector<PhotoNeedRow> needs;
    std::map<PhotoMoment, int> asked;
    for (const PhotoSpec& spec : operation.spec.photos) {
        int skip = asked[spec.moment]++;
        PhotoNeedRow row;
        row.needId = QStringLiteral("%1/%2").arg(nameOf(spec.moment)).arg(skip);
        row.moment = nameOf(spec.moment);
        row.momentWords = words(spec.moment);
        row.title = spec.title;
        for (const AttachedPhoto& photo : all)
            if (photo.moment == spec.moment && counts(photo) &&
                (spec.moment == PhotoMoment::Before || photo.at >= operation.reopenedAt) &&
                skip-- == 0) {
                row.present = true;
                row.url = photoUrl(photo.photo, PhotoSize::Panel);
                row.whenWords = m_book.times().shortly(photo.at, m_ticker.now());
            }
        needs.push_back(row);
    }
    m_photos.setRows(std::move(photos));
    m_photoNeeds.setRows(std::move(needs));
}

void OperationView::rebuildSegments(const Operation& operation)
{
    const TimeWords& times = m_book.times();
    const Moment now = m_ticker.now();
    std::vector<SpanRow> rows;
    for (const Segment& segment : operation.segments) {
        SpanRow row;
        row.segmentId = segment.id.value;
        row.personId = segment.person.value;
        row.who = m_book.nameOf(segment.person);
        row.running = segment.running();
        row.spanWords =
            row.running ? tr("since %1").arg(times.dayAndClock(segment.start, now))
                        : tr("%1 to %2")
                              .arg(times.dayAndClock(segment.start, now), times.clock(segment.end));
        row.measured = row.running ? minutesBetween(segment.start, now) : segment.measuredMinutes();
        row.minutes = row.running ? row.measured : segment.minutes();
        row.minutesWords = ramplight::minutesWords(row.minutes);
        row.corrected = segment.correctedMinutes.has_value();
        if (row.corrected)
            row.correctedWords =
                tr("measured %1; corrected by %2: %3")
                    .arg(ramplight::minutesWords(row.measured), m_book.nameOf(segment.correctedBy),
                         segment.correctionReason);
        row.clockSetBack = segment.clockSetBack;
        rows.push_back(row);
    }
    m_segments.setRows(std::move(rows));
}

void OperationView::rebuildOffers(const Operation& operation)
{
    m_offers = {};
    const OperationId id = operation.id;
    if (id.isNull())
        return;
    using State = OperationState;
    const State state = operation.state;
    const bool open = operation.isOpen();
    const bool awaits = state == State::AwaitingCheck;
    const bool away = operation.outside && !operation.outside->received;
    const bool isolating = operation.spec.highVoltageIsolation;
    const std::optional<Isolation>& isolation = m_view.car().isolation;
    const QString some = QStringLiteral("…");
    const auto offer = [this](bool shown, const CarCommand& command) {
        return m_view.probe(command, shown);
    };
    m_offers.start = offer(open && !awaits && !myRunning(), car::StartWork{id});
    if (!m_offers.start.can && m_offers.start.shown && !cautionsRead()) {
        // Reading them is one touch with starting: see whether that is all that is in the way.
        m_offers.start = m_view.probeTogether({car::ReadCautions{id}, car::StartWork{id}}, true);
    }
    m_offers.pause = offer(myRunning(), car::PauseWork{id, m_session.person(), StopKind::Paused});
    m_offers.finish = offer(open && (!awaits || operation.outside), car::SignOff{id, {}});
    m_offers.countersign = offer(awaits && countersigned(), car::Countersign{id});
    car::FailCheck fail{id, some, {}};
    if (check() && operation.restsOn.empty() && m_checkedWork.count() > 0)
        fail.work = OperationId{m_checkedWork.rows().front().choiceId.toInt()};
    m_offers.fail = offer(open && (check() || awaits), fail);
    m_offers.reopen =
        offer(state == State::Closed || state == State::LeftAsIs, car::Reopen{id, some});
    m_offers.leave = offer(open && !operation.spec.safety, car::LeaveAsIs{id, some});
    m_offers.withdraw = offer(open && !operation.spec.safety && operation.origin == Origin::ByHand,
                              car::WithdrawOperation{id, some});
    PersonId colleague;
    for (const auto& [personId, person] : m_book.site().people)
        if (person.active && personId != m_session.person() && person.has(operation.spec.skill))
            colleague = personId;
    m_offers.handOver = offer(open && !awaits && !colleague.isNull(), car::HandOver{id, colleague});
    const QDate day = m_book.times().dateOf(m_ticker.now());
    m_offers.block =
        offer(open && state != State::Blocked && !awaits, car::BlockForPart{id, {some, some, day}});
    m_offers.unblock = offer(state == State::Blocked && operation.part, car::Unblock{id});
    OutsideWork work;
    work.firm = some;
    work.dueBack = day;
    work.document = some;
    m_offers.sendOut = offer(open && state != State::Blocked && !awaits, car::SendOut{id, work});
    m_offers.receive = offer(away, car::ReceiveBack{id, some});
    m_offers.isolate = offer(open && isolating && !isolation, car::SetIsolation{id, some});
    m_offers.lift = offer(isolation && isolation->operation == id, car::LiftIsolation{id, some});
}

// ---- doing -----------------------------------------------------------------------------------

void OperationView::send(const QString& what, std::vector<CarCommand> commands,
                         std::function<void(const CarOutcome&)> then)
{
    m_view.send(m_ask, what, tr("for %1: %2").arg(m_view.stockNumber(), title()),
                std::move(commands), false, std::move(then));
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
    if (o == nullptr || o->spec.cautions.isEmpty())
        return start();
    // Reading them again changes nothing, so it need not matter whether this person has.
    send(QStringLiteral("readAndStart"), {car::ReadCautions{m_id}, car::StartWork{m_id}});
}

void OperationView::pause()
{
    send(QStringLiteral("pause"), {car::PauseWork{m_id, m_session.person(), StopKind::Paused}});
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
                std::ranges::find(o->spec.readings, row.readingKey, &ReadingSpec::key);
            return spec == o->spec.readings.end() ? nullptr : &*spec;
        }
    return nullptr;
}

std::optional<ReadingValue> OperationView::parse(const ReadingSpec& spec, const QString& text,
                                                 const QString& what)
{
    ReadingValue value;
    if (!isNumber(spec)) {
        value.text = text.trimmed();
        return value;
    }
    const auto number = typedNumber(text, spec.decimals);
    if (!number) {
        m_ask.refuse(what, QStringLiteral("reading-malformed"),
                     QStringLiteral("%1: %2").arg(spec.title, number.error()));
        return std::nullopt;
    }
    value.number = *number;
    return value;
}

void OperationView::takeReading(const QString& rowId, const QString& text)
{
    const QString what = QStringLiteral("takeReading");
    PlaceId place;
    if (const ReadingSpec* spec = specOf(rowId, place))
        if (const auto value = parse(*spec, text, what))
            send(what, {car::TakeReading{m_id, spec->key, place, *value}});
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
    const auto spec = std::ranges::find(o->spec.readings, reading->key, &ReadingSpec::key);
    if (spec == o->spec.readings.end())
        return;
    if (const auto value = parse(*spec, text, what))
        send(what, {car::CorrectReading{m_id, reading->id, *value, reason.trimmed(), {photoId}}});
}

void OperationView::attach(CarView::PhotoSource source, const QString& moment)
{
    const auto known = fromName<PhotoMoment>(moment);
    if (!known || operation() == nullptr)
        return;
    m_view.takePhoto(m_ask, QStringLiteral("photo"), std::move(source),
                     [this, id = m_id, moment = *known](const PhotoTaken& taken) {
                         const Operation* o = m_view.car().operation(id);
                         if (o == nullptr)
                             return;
                         car::AttachPhoto command;
                         command.photo = taken.photo.id;
                         command.moment = moment;
                         command.place = o->place;
                         command.operation = id;
                         send(QStringLiteral("attach"), {command},
                              [this, taken](const CarOutcome&) {
                                  if (!taken.warnings.isEmpty())
                                      emit photoWarnings(taken.warnings);
                              });
                     });
}

void OperationView::attachFile(const QString& path, const QString& moment)
{
    attach([this, path] { return m_desk.keepPhotoFile(path); }, moment);
}

void OperationView::attachFrame(const QImage& frame, const QString& moment)
{
    attach([this, frame] { return m_desk.keepPhoto(frame); }, moment);
}

void OperationView::signOff()
{
    send(QStringLiteral("signOff"), {car::SignOff{m_id, m_note.trimmed()}},
         [this](const CarOutcome&) {
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

void OperationView::receiveBack(const QString& document)
{
    send(QStringLiteral("receiveBack"), {car::ReceiveBack{m_id, document.trimmed()}});
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

void OperationView::recordFinding()
{
    const QString what = QStringLiteral("recordFinding");
    FindingDraft& draft = *m_view.finding();
    const auto data = draft.data();
    if (!data) {
        m_ask.refuse(what, QStringLiteral("field-missing"),
                     draft.fault().isEmpty() ? tr("Choose the place and what is wrong with it.")
                                             : draft.fault());
        return;
    }
    send(what, {car::RecordFinding{*data, m_id}}, [&draft](const CarOutcome&) { draft.clear(); });
}

} // namespace ramplight
