// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "viewbench.h"

#include <QTest>

namespace ramplight::test {

namespace {

template <class T>
Answer<T> ready(tl::expected<T, StoreError> result)
{
    using Result = tl::expected<T, Failure>;
    return QtFuture::makeReadyFuture(result ? Result(std::move(*result))
                                            : Result(tl::unexpected<Failure>(result.error())));
}

template <class T>
QFuture<tl::expected<T, AccessError>> orFault(const std::optional<AccessError>& fault, T value)
{
    using Result = tl::expected<T, AccessError>;
    return QtFuture::makeReadyFuture(fault ? Result(tl::unexpected(*fault))
                                           : Result(std::move(value)));
}

QFuture<tl::expected<void, AccessError>> orFault(const std::optional<AccessError>& fault)
{
    using Result = tl::expected<void, AccessError>;
    return QtFuture::makeReadyFuture(fault ? Result(tl::unexpected(*fault)) : Result());
}

} // namespace

Answer<CarOutcome> BenchDesk::run(const CarRequest& request)
{
    asked.push_back(request);
    auto outcome = bench.workshop.run(request);
    if (outcome)
        QMetaObject::invokeMethod(this, &Desk::carsChanged, Qt::QueuedConnection);
    return QtFuture::makeReadyFuture(std::move(outcome));
}

Answer<SiteOutcome> BenchDesk::run(const SiteRequest& request)
{
    askedOfSite.push_back(request);
    auto outcome = bench.workshop.run(request);
    if (outcome)
        QMetaObject::invokeMethod(this, &Desk::siteChanged, Qt::QueuedConnection);
    return QtFuture::makeReadyFuture(std::move(outcome));
}

Answer<CarOutcome> BenchDesk::mergeDuplicate(const CommandId& id, PersonId actor, const CarId& keep,
                                             const CarId& second, const QString& reason)
{
    auto outcome = bench.workshop.mergeDuplicate(id, actor, keep, second, reason);
    if (outcome)
        QMetaObject::invokeMethod(this, &Desk::carsChanged, Qt::QueuedConnection);
    return QtFuture::makeReadyFuture(std::move(outcome));
}

Answer<std::vector<CarOutcome>> BenchDesk::signTogether(const TogetherRequest& request)
{
    auto outcome = bench.workshop.signTogether(request);
    if (outcome)
        QMetaObject::invokeMethod(this, &Desk::carsChanged, Qt::QueuedConnection);
    return QtFuture::makeReadyFuture(std::move(outcome));
}

Answer<int> BenchDesk::stopAllWork(const CommandId& id, PersonId by, Moment shiftEnd)
{
    return QtFuture::makeReadyFuture(bench.workshop.stopAllWork(id, by, shiftEnd));
}

Answer<SiteState> BenchDesk::site()
{
    return ready(bench.ledger.site());
}

Answer<std::vector<CarCard>> BenchDesk::openCards()
{
    const auto site = bench.ledger.site();
    if (!site)
        return ready(tl::expected<std::vector<CarCard>, StoreError>(tl::unexpected(site.error())));
    std::vector<CarCard> cards;
    for (const auto& [id, car] : bench.ledger.cars())
        if (!car.released && !car.left)
            cards.push_back(cardOf(car, site->rules));
    return ready(tl::expected<std::vector<CarCard>, StoreError>(std::move(cards)));
}

Answer<std::vector<CarCard>> BenchDesk::releasedCards(int most)
{
    const auto site = bench.ledger.site();
    if (!site)
        return ready(tl::expected<std::vector<CarCard>, StoreError>(tl::unexpected(site.error())));
    std::vector<CarCard> cards;
    for (const auto& [id, car] : bench.ledger.cars())
        if (car.released && static_cast<int>(cards.size()) < most)
            cards.push_back(cardOf(car, site->rules));
    return ready(tl::expected<std::vector<CarCard>, StoreError>(std::move(cards)));
}

Answer<std::vector<CarCard>> BenchDesk::findCars(const QString& text)
{
    const auto site = bench.ledger.site();
    std::vector<CarCard> cards;
    for (const auto& [id, car] : bench.ledger.cars())
        if (car.identity.stockNumber.contains(text, Qt::CaseInsensitive) ||
            car.identity.vin == text)
            cards.push_back(cardOf(car, site->rules));
    return ready(tl::expected<std::vector<CarCard>, StoreError>(std::move(cards)));
}

Answer<CarState> BenchDesk::car(const CarId& id)
{
    return ready(bench.ledger.car(id));
}

Answer<std::vector<SiteEnvelope>> BenchDesk::siteHistory()
{
    return ready(bench.ledger.siteHistory());
}

Answer<std::vector<CarEnvelope>> BenchDesk::history(const CarId& id)
{
    using Result = tl::expected<std::vector<CarEnvelope>, Failure>;
    return historyFails ? QtFuture::makeReadyFuture(Result(tl::unexpected<Failure>(StoreError{})))
                        : ready(bench.ledger.history(id));
}

Answer<std::optional<CarId>> BenchDesk::carByStockNumber(const QString& stockNumber)
{
    return ready(bench.ledger.carByStockNumber(stockNumber));
}

QFuture<tl::expected<SignInAnswer, AccessError>> BenchDesk::tryPin(PersonId person, Secret pin,
                                                                   const CommandId&)
{
    SignInAnswer right;
    right.outcome = SignInAnswer::Outcome::SignedIn;
    const bool good = pins.contains(person) && pin == Secret(pins.at(person));
    return orFault(accessFault, good ? right : wrongPin);
}

QFuture<tl::expected<SignInAnswer, AccessError>> BenchDesk::signInStanding(PersonId)
{
    return orFault(accessFault, standing.value_or(SignInAnswer{}));
}

QFuture<tl::expected<void, AccessError>> BenchDesk::setPin(PersonId person, Secret pin)
{
    const std::optional<AccessError> fault = accessFault ? accessFault : keepingFault;
    if (!fault)
        pins[person] = pin.bytes().toByteArray();
    return orFault(fault);
}

QFuture<tl::expected<std::optional<PersonId>, AccessError>>
BenchDesk::personOfBadge(const QString& code)
{
    const auto found = badges.find(code);
    return orFault(accessFault,
                   found == badges.end() ? std::nullopt : std::optional(found->second));
}

Answer<SiteOutcome> BenchDesk::runWithPin(const SiteRequest& request, Secret pin)
{
    return runKeeping(
        request, [this, pin = pin.bytes().toByteArray()](PersonId person) { pins[person] = pin; });
}

Answer<SiteOutcome> BenchDesk::runWithBadge(const SiteRequest& request, const QString& code)
{
    return runKeeping(request, [this, code](PersonId person) { badges[code] = person; });
}

Answer<SiteOutcome> BenchDesk::runKeeping(const SiteRequest& request,
                                          const std::function<void(PersonId)>& keep)
{
    using Result = tl::expected<SiteOutcome, Failure>;
    if (const auto fault = accessFault ? accessFault : keepingFault)
        return QtFuture::makeReadyFuture(Result(tl::unexpected<Failure>(
            StoreError{StoreErrorKind::Unavailable, ramplight::words(*fault)})));
    const auto* change = std::get_if<site::ChangeAccess>(&request.command);
    return run(request).then(
        [keep, person = change == nullptr ? firstPerson : change->person](const Result& outcome) {
            if (outcome)
                keep(person);
            return outcome;
        });
}

QFuture<tl::expected<PhotoTaken, EvidenceError>> BenchDesk::keepPhotoFile(const QString&)
{
    return keepPhoto({});
}

QFuture<tl::expected<PhotoTaken, EvidenceError>> BenchDesk::keepPhotoBytes(const QByteArray&)
{
    return keepPhoto({});
}

QFuture<tl::expected<PhotoPair, EvidenceError>> BenchDesk::alignPhotos(const PhotoId& before,
                                                                       const PhotoId& after)
{
    using Result = tl::expected<PhotoPair, EvidenceError>;
    laid.emplace_back(before, after);
    return QtFuture::makeReadyFuture(photoFault ? Result(tl::unexpected(*photoFault))
                                                : Result(aligned));
}

QFuture<std::vector<PhotoId>> BenchDesk::photosSeenBefore(const std::vector<PhotoId>& fresh,
                                                          const std::vector<PhotoId>& earlier)
{
    compared.emplace_back(fresh, earlier);
    return QtFuture::makeReadyFuture(seenBefore ? fresh : std::vector<PhotoId>());
}

QFuture<tl::expected<PhotoTaken, EvidenceError>> BenchDesk::keepPhoto(const QImage&)
{
    using Result = tl::expected<PhotoTaken, EvidenceError>;
    if (photoFault)
        return QtFuture::makeReadyFuture(Result(tl::unexpected(*photoFault)));
    return QtFuture::makeReadyFuture(
        Result(PhotoTaken{{bench.photo(), {640, 480}, 1000}, photoWarnings}));
}

QFuture<tl::expected<std::vector<WaitingTranscript>, QString>> BenchDesk::transcripts()
{
    using Result = tl::expected<std::vector<WaitingTranscript>, QString>;
    return QtFuture::makeReadyFuture(Result(waiting));
}

QFuture<tl::expected<TranscriptTaken, QString>>
BenchDesk::readTranscript(const QString& path, const CarId& car, PersonId actor)
{
    using Result = tl::expected<TranscriptTaken, QString>;
    taken.append(path);
    const auto outcome = run(CarRequest{{QStringLiteral("speech-%1").arg(taken.size())},
                                        actor,
                                        car,
                                        {car::TakeSpeech{spoken}},
                                        false});
    const auto result = outcome.result();
    return QtFuture::makeReadyFuture(result ? Result(TranscriptTaken{spoken.transcript, {}, false})
                                            : Result(tl::unexpected(words(result.error()))));
}

QFuture<tl::expected<SpokenText, QString>> BenchDesk::spokenText(const SpokenRound&)
{
    return QtFuture::makeReadyFuture(tl::expected<SpokenText, QString>(SpokenText{}));
}

QFuture<tl::expected<void, QString>> BenchDesk::keepCorrection(const SpokenRound&, int,
                                                               const std::optional<FindingData>&)
{
    return QtFuture::makeReadyFuture(tl::expected<void, QString>());
}

QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>> BenchDesk::droppedFiles()
{
    using Result = tl::expected<std::vector<DroppedFile>, EvidenceError>;
    return QtFuture::makeReadyFuture(photoFault ? Result(tl::unexpected(*photoFault))
                                                : Result(dropped));
}

QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>> BenchDesk::appraisalFiles()
{
    return droppedFiles();
}

QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>> BenchDesk::houseFiles()
{
    return droppedFiles();
}

QFuture<tl::expected<QString, QString>> BenchDesk::exportHouse()
{
    return QtFuture::makeReadyFuture(tl::expected<QString, QString>(QStringLiteral("the folder")));
}

QFuture<tl::expected<void, QStringList>> BenchDesk::importHouse(const CommandId&, PersonId,
                                                                const QString& path)
{
    using Result = tl::expected<void, QStringList>;
    if (!houseFaults.isEmpty())
        return QtFuture::makeReadyFuture(Result(tl::unexpected(houseFaults)));
    taken.append(path);
    return QtFuture::makeReadyFuture(Result());
}

QFuture<tl::expected<ImportReport, ImportFaults>> BenchDesk::importAppraisal(const QString&,
                                                                             PersonId)
{
    using Result = tl::expected<ImportReport, ImportFaults>;
    return QtFuture::makeReadyFuture(importFaults.isEmpty()
                                         ? Result(ImportReport{{QStringLiteral("K9")}, false})
                                         : Result(tl::unexpected(ImportFaults{importFaults})));
}

QFuture<tl::expected<RecordPages, QString>> BenchDesk::makeRecord(const CarId& car)
{
    using Result = tl::expected<RecordPages, QString>;
    QImage page(4, 4, QImage::Format_RGB32);
    page.fill(Qt::white);
    return QtFuture::makeReadyFuture(
        recordFault
            ? Result(tl::unexpected(*recordFault))
            : Result(RecordPages{car.text.toLatin1(), QStringLiteral("AB12"), {page, page}}));
}

QFuture<tl::expected<QString, QString>> BenchDesk::saveRecord(const QString& stockNumber,
                                                              const QByteArray&)
{
    using Result = tl::expected<QString, QString>;
    return QtFuture::makeReadyFuture(recordFault ? Result(tl::unexpected(*recordFault))
                                                 : Result(stockNumber + QStringLiteral(".pdf")));
}

namespace {

QFuture<tl::expected<PaperMade, QString>> paperOf(const QString& title,
                                                  const std::optional<QString>& fault)
{
    using Result = tl::expected<PaperMade, QString>;
    QImage page(6, 8, QImage::Format_RGB32);
    page.fill(Qt::white);
    return QtFuture::makeReadyFuture(
        fault ? Result(tl::unexpected(*fault))
              : Result(PaperMade{title, title + QStringLiteral(".pdf"), title.toUtf8(), page}));
}

} // namespace

QFuture<tl::expected<PaperMade, QString>> BenchDesk::makeDoorSheet(const CarId& car)
{
    return paperOf(QStringLiteral("door %1").arg(car.text), recordFault);
}

QFuture<tl::expected<PaperMade, QString>> BenchDesk::makeWheelTag(const CarId& car,
                                                                  const PlaceId& wheel)
{
    return paperOf(QStringLiteral("tag %1 %2").arg(car.text, wheel.text), recordFault);
}

QFuture<tl::expected<QString, QString>> BenchDesk::savePaper(const QString& fileName,
                                                             const QByteArray&, KeepAt where)
{
    using Result = tl::expected<QString, QString>;
    const QString folder =
        where == KeepAt::Stick ? QStringLiteral("stick/") : QStringLiteral("records/");
    return QtFuture::makeReadyFuture(recordFault ? Result(tl::unexpected(*recordFault))
                                                 : Result(folder + fileName));
}

QFuture<QString> BenchDesk::stickName()
{
    return QtFuture::makeReadyFuture(QStringLiteral("stick"));
}

QFuture<tl::expected<QString, QString>> BenchDesk::printPaper(const QString& title,
                                                              const QByteArray&)
{
    using Result = tl::expected<QString, QString>;
    if (printingFault)
        return QtFuture::makeReadyFuture(Result(tl::unexpected(*printingFault)));
    printed.append(title);
    return QtFuture::makeReadyFuture(
        Result(waits.isEmpty() ? QStringLiteral("Sent to %1").arg(queue) : waits));
}

QFuture<tl::expected<std::vector<PrintQueue>, QString>> BenchDesk::printQueues()
{
    using Result = tl::expected<std::vector<PrintQueue>, QString>;
    return QtFuture::makeReadyFuture(printingFault ? Result(tl::unexpected(*printingFault))
                                                   : Result(printers));
}

ViewBench::ViewBench(const BenchKeepers& keepers)
    : shell({.desk = desk,
             .clock = desk.bench.clock,
             .catalogue = desk.bench.catalogue,
             .demo = {},
             .steady = [this] { return steadyMs; },
             .keepScreen = keepers.screen,
             .keepPhone = keepers.phone,
             .keepPrinter = keepers.printer})
{
    const SiteState site = bench.ledger.site().value_or(SiteState{});
    for (const auto& [id, person] : site.people)
        desk.pins[id] = pinOf(id);
    shell.start();
    settle();
}

QByteArray ViewBench::pinOf(PersonId person)
{
    return QByteArray::number(274'190 + person.value);
}

void ViewBench::typePin(PersonId person)
{
    for (const char digit : pinOf(person))
        shell.session()->pad()->press(digit - '0');
}

void ViewBench::signIn(PersonId person)
{
    shell.session()->choose(person.value);
    typePin(person);
    QTRY_COMPARE(shell.session()->personId(), person.value);
}

void ViewBench::settle()
{
    emit desk.siteChanged();
    emit desk.carsChanged();
    // Answers come in the order of the questions. One that was on its way may be followed by
    // another reading: hence twice.
    for (int i = 0; i < 2; ++i) {
        QObject here;
        bool answered = false;
        whenReady(desk.openCards(), &here, [&answered](const auto&) { answered = true; });
        QTRY_VERIFY(answered);
    }
    QTRY_VERIFY(shell.siteRead() && shell.wall()->loaded());
    const CarId open{shell.car()->carId()};
    if (!open.isEmpty())
        QTRY_COMPARE(shell.car()->car().seq, bench.car(open).seq);
}

void ViewBench::open(const CarId& car)
{
    shell.car()->open(car.text);
    QTRY_COMPARE(shell.car()->car().seq, bench.car(car).seq);
    QTRY_COMPARE(shell.car()->history()->count(), static_cast<int>(bench.car(car).seq));
}

QString ViewBench::outcome(Ask* ask)
{
    if (!QTest::qWaitFor([ask] { return !ask->busy(); }))
        return QStringLiteral("still busy");
    return ask->refused() ? ask->refusalId() : done;
}

QVariant at(const QAbstractItemModel& model, int row, const char* role)
{
    const int number = model.roleNames().key(role, -1);
    return number < 0 ? QVariant(QStringLiteral("no such role"))
                      : model.data(model.index(row, 0), number);
}

QStringList dump(const QAbstractItemModel& model, int row)
{
    const QHash<int, QByteArray> names = model.roleNames();
    QList<int> roles = names.keys();
    std::ranges::sort(roles);
    QStringList lines;
    for (const int role : roles) {
        const QVariant value = model.data(model.index(row, 0), role);
        QString text = value.toString();
        if (value.metaType() == QMetaType::fromType<QStringList>())
            text = value.toStringList().join(QStringLiteral(" | "));
        else if (value.metaType() == QMetaType::fromType<QList<int>>()) {
            QStringList numbers;
            for (const int number : value.value<QList<int>>())
                numbers.append(QString::number(number));
            text = numbers.join(QStringLiteral(" | "));
        } else if (value.metaType() == QMetaType::fromType<QVariantMap>()) {
            QStringList pairs;
            const QVariantMap map = value.toMap();
            for (auto it = map.begin(); it != map.end(); ++it)
                pairs.append(QStringLiteral("%1=%2").arg(it.key(), it.value().toString()));
            text = pairs.join(QStringLiteral(" | "));
        }
        lines.append(QStringLiteral("%1: %2").arg(QString::fromLatin1(names.value(role)), text));
    }
    return lines;
}

QStringList column(const QAbstractItemModel& model, const char* role)
{
    QStringList values;
    for (int row = 0; row < model.rowCount(); ++row)
        values.append(at(model, row, role).toString());
    return values;
}

} // namespace ramplight::test
