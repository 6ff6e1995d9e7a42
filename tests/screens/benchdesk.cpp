// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchdesk.h"

#include "evidence/photodecoder.h"
#include "evidence/photoquality.h"

#include <QFile>

#include <memory>

namespace ramplight::test {

namespace {

template <class T>
QFuture<T> ready(T value)
{
    QPromise<T> promise;
    promise.start();
    promise.addResult(std::move(value));
    promise.finish();
    return promise.future();
}

template <class T>
tl::expected<T, Failure> failing(tl::expected<T, StoreError> result)
{
    if (!result)
        return tl::unexpected<Failure>(result.error());
    return std::move(*result);
}

} // namespace

BenchDesk::BenchDesk(StoreThread& store, const Clock& clock, const Secret& pepper,
                     PhotoStore& photos, QString dropFolder)
    : m_store(store)
    , m_clock(clock)
    , m_pepper(pepper)
    , m_photos(photos)
    , m_dropFolder(std::move(dropFolder))
{
    connect(&store, &StoreThread::changed, this, [this] { emit carsChanged(); });
    connect(&store, &StoreThread::siteChanged, this, &Desk::siteChanged);
}

Answer<CarOutcome> BenchDesk::run(const CarRequest& request)
{
    return m_store.run([request](Workshop& workshop, Store&) { return workshop.run(request); });
}

Answer<SiteOutcome> BenchDesk::run(const SiteRequest& request)
{
    return m_store.run([request](Workshop& workshop, Store&) { return workshop.run(request); });
}

Answer<CarOutcome> BenchDesk::mergeDuplicate(const CommandId& id, PersonId actor, const CarId& keep,
                                             const CarId& second, const QString& reason)
{
    return m_store.run([=](Workshop& workshop, Store&) {
        return workshop.mergeDuplicate(id, actor, keep, second, reason);
    });
}

Answer<int> BenchDesk::stopAllWork(const CommandId& id, Moment shiftEnd)
{
    return m_store.run(
        [id, shiftEnd](Workshop& workshop, Store&) { return workshop.stopAllWork(id, shiftEnd); });
}

Answer<SiteState> BenchDesk::site()
{
    return m_store.run([](Workshop&, Store& store) { return failing(store.ledger().site()); });
}

Answer<std::vector<CarCard>> BenchDesk::openCards()
{
    return m_store.run([](Workshop&, Store& store) { return failing(store.wall().wall()); });
}

Answer<CarState> BenchDesk::car(const CarId& id)
{
    return m_store.run([id](Workshop&, Store& store) { return failing(store.ledger().car(id)); });
}

Answer<std::vector<CarEnvelope>> BenchDesk::history(const CarId& id)
{
    return m_store.run(
        [id](Workshop&, Store& store) { return failing(store.ledger().history(id)); });
}

Answer<std::optional<CarId>> BenchDesk::carByStockNumber(const QString& stockNumber)
{
    return m_store.run([stockNumber](Workshop&, Store& store) {
        return failing(store.ledger().carByStockNumber(stockNumber));
    });
}

template <class F>
auto BenchDesk::withSignIn(F f)
{
    const Secret* pepper = &m_pepper;
    return m_store.run([f = std::move(f), pepper](Workshop&, Store& store) mutable {
        SignIn signIn(PinHasher(pepper->clone(), cheap), store.credentials(), store.failures());
        return f(signIn, store);
    });
}

QFuture<tl::expected<SignInAnswer, AccessError>> BenchDesk::tryPin(PersonId person, Secret pin)
{
    const auto typed = std::make_shared<Secret>(std::move(pin));
    const Moment now = m_clock.now();
    return withSignIn([=](SignIn& signIn, Store&) { return signIn.tryPin(person, *typed, now); });
}

QFuture<tl::expected<SignInAnswer, AccessError>> BenchDesk::signInStanding(PersonId person)
{
    const Moment now = m_clock.now();
    return withSignIn([=](SignIn& signIn, Store&) { return signIn.standing(person, now); });
}

QFuture<tl::expected<void, AccessError>> BenchDesk::setPin(PersonId person, Secret pin)
{
    const auto typed = std::make_shared<Secret>(std::move(pin));
    return withSignIn([=](SignIn& signIn, Store&) { return signIn.setPin(person, *typed); });
}

QFuture<tl::expected<std::optional<PersonId>, AccessError>>
BenchDesk::personOfBadge(const QString& code)
{
    return withSignIn([code](SignIn& signIn, Store&) { return signIn.personOfBadge(code); });
}

QFuture<tl::expected<void, AccessError>> BenchDesk::setBadge(PersonId person, const QString& code)
{
    return withSignIn([person, code](SignIn&, Store& store) {
        return store.credentials().setBadge(person, code);
    });
}

QFuture<tl::expected<PhotoTaken, EvidenceError>> BenchDesk::keepPhotoFile(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return ready<tl::expected<PhotoTaken, EvidenceError>>(
            tl::unexpected(EvidenceError::CannotRead));
    const auto image = decodePhoto(file.readAll());
    if (!image)
        return ready<tl::expected<PhotoTaken, EvidenceError>>(tl::unexpected(image.error()));
    return keepPhoto(*image);
}

QFuture<tl::expected<PhotoTaken, EvidenceError>> BenchDesk::keepPhoto(const QImage& frame)
{
    const auto kept = m_photos.keep(frame);
    if (!kept)
        return ready<tl::expected<PhotoTaken, EvidenceError>>(tl::unexpected(kept.error()));
    PhotoTaken taken{*kept, {}};
    for (const PhotoWarning warning : judgePhoto(frame).warnings)
        taken.warnings.append(words(warning));
    return ready<tl::expected<PhotoTaken, EvidenceError>>(taken);
}

QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>> BenchDesk::droppedFiles()
{
    using Result = tl::expected<std::vector<DroppedFile>, EvidenceError>;
    const auto listed = DropFolder(m_dropFolder).list();
    if (!listed)
        return ready<Result>(tl::unexpected(listed.error()));
    std::vector<DroppedFile> files;
    for (const DropCandidate& candidate : *listed)
        files.push_back({candidate.path, candidate.name, candidate.modified});
    return ready<Result>(std::move(files));
}

QFuture<tl::expected<ImportReport, ImportFaults>> BenchDesk::importAppraisal(const QString& path,
                                                                             PersonId)
{
    return ready<tl::expected<ImportReport, ImportFaults>>(
        tl::unexpected(ImportFaults{{QStringLiteral("%1: not read on this bench").arg(path)}}));
}

QFuture<tl::expected<RecordPages, QString>> BenchDesk::makeRecord(const CarId&)
{
    return ready<tl::expected<RecordPages, QString>>(
        tl::unexpected(QStringLiteral("This bench prints no records.")));
}

QFuture<tl::expected<QString, QString>> BenchDesk::saveRecord(const QString&, const QByteArray&)
{
    return ready<tl::expected<QString, QString>>(
        tl::unexpected(QStringLiteral("This bench saves no records.")));
}

QFuture<tl::expected<void, QString>> BenchDesk::printRecord(const QByteArray&)
{
    return ready<tl::expected<void, QString>>(
        tl::unexpected(QStringLiteral("This bench has no printer.")));
}

} // namespace ramplight::test
