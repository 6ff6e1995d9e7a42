// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "desk/workshopdesk.h"

#include "evidence/dropfolder.h"
#include "evidence/durablefile.h"
#include "evidence/photodecoder.h"
#include "evidence/photolikeness.h"
#include "evidence/photoquality.h"
#include "record/recordpdf.h"
#include "storage/sitesquery.h"

#include <QDir>
#include <QFileInfo>

#include <algorithm>
#include <array>
#include <iterator>
#include <memory>
#include <utility>

namespace ramplight {

namespace {

constexpr qint64 mostPhotoBytes = PhotoLimits{}.mostBytes;

template <class T>
tl::expected<T, Failure> failing(tl::expected<T, StoreError> result)
{
    if (!result)
        return tl::unexpected<Failure>(result.error());
    return std::move(*result);
}

tl::expected<PhotoTaken, EvidenceError> keepImage(PhotoVault& photos, const QImage& image)
{
    const auto kept = photos.keep(image);
    if (!kept)
        return tl::unexpected(kept.error());
    PhotoTaken taken{*kept, {}};
    for (const PhotoWarning warning : judgePhoto(image).warnings)
        taken.warnings.append(words(warning));
    return taken;
}

tl::expected<PhotoTaken, EvidenceError> keepBytes(PhotoVault& photos, const QByteArray& bytes)
{
    const auto image = decodePhoto(bytes);
    if (!image)
        return tl::unexpected(image.error());
    return keepImage(photos, *image);
}

bool asksForRelease(const CarRequest& request)
{
    return std::ranges::any_of(request.commands, [](const CarCommand& command) {
        return std::holds_alternative<car::Release>(command);
    });
}

} // namespace

WorkshopDesk::WorkshopDesk(StoreThread& store, const Clock& clock, Secret pepper,
                           PhotoVault& photos, DeskPlaces places, PinCost cost)
    : m_store(store)
    , m_clock(clock)
    , m_pepper(std::move(pepper))
    , m_cost(cost)
    , m_photos(photos)
    , m_places(std::move(places))
    , m_transcripts(m_places.speech)
{
    m_pool.setMaxThreadCount(2);
    connect(&store, &StoreThread::changed, this, &Desk::carsChanged);
    connect(&store, &StoreThread::siteChanged, this, &Desk::siteChanged);
    connect(&store, &StoreThread::damaged, this, &Desk::storeDamaged);
    connect(&store, &StoreThread::standingChanged, this, [this](const ServerStanding& standing) {
        m_standing = standing;
        const bool wasThere = std::exchange(m_isThere, !standing.away);
        if (m_isThere && !wasThere)
            tellOwedAlarms();
        emit standingChanged();
    });
}

WorkshopDesk::~WorkshopDesk()
{
    m_pool.waitForDone();
    m_photoPool.waitForDone();
}

Answer<CarOutcome> WorkshopDesk::run(const CarRequest& request)
{
    using Result = tl::expected<CarOutcome, Failure>;
    return m_store.run([request, pins = m_pins](Workshop& workshop, Store& store) -> Result {
        // What held the car may have stood where nothing can be read any more.
        if (asksForRelease(request) && store.ledger().connection().isDamaged())
            return tl::unexpected<Failure>(
                StoreError{StoreErrorKind::Damaged,
                           QStringLiteral("The workshop's file is damaged, and what held this car "
                                          "may be missing in it. Bring the last backup back first; "
                                          "nothing was released.")});
        CarRequest asked = request;
        asked.pinFresh = pins->has(request.actor, request.id);
        return workshop.run(asked);
    });
}

Answer<SiteOutcome> WorkshopDesk::run(const SiteRequest& request)
{
    using Result = tl::expected<SiteOutcome, Failure>;
    return m_store.run([request, pins = m_pins](Workshop& workshop, Store&) -> Result {
        if (wantsPinAgain(request.command) && !pins->has(request.actor, request.id))
            return tl::unexpected<Failure>(Refusal{RefusalId::PinNotFresh, {}});
        return workshop.run(request);
    });
}

Answer<CarOutcome> WorkshopDesk::mergeDuplicate(const CommandId& id, PersonId actor,
                                                const CarId& keep, const CarId& second,
                                                const QString& reason)
{
    return m_store.run([=](Workshop& workshop, Store&) {
        return workshop.mergeDuplicate(id, actor, keep, second, reason);
    });
}

Answer<std::vector<CarOutcome>> WorkshopDesk::signTogether(const TogetherRequest& request)
{
    return m_store.run(
        [request](Workshop& workshop, Store&) { return workshop.signTogether(request); });
}

Answer<int> WorkshopDesk::stopAllWork(const CommandId& id, PersonId by, Moment shiftEnd)
{
    return m_store.run([id, by, shiftEnd](Workshop& workshop, Store&) {
        return workshop.stopAllWork(id, by, shiftEnd);
    });
}

Answer<SiteState> WorkshopDesk::site()
{
    return m_store.run([](Workshop&, Store& store) { return failing(store.ledger().site()); });
}

Answer<std::vector<SiteEnvelope>> WorkshopDesk::siteHistory()
{
    return m_store.run(
        [](Workshop&, Store& store) { return failing(store.ledger().siteHistory()); });
}

Answer<std::vector<CarCard>> WorkshopDesk::openCards()
{
    return m_store.run([](Workshop&, Store& store) { return failing(store.wall().wall()); });
}

Answer<std::vector<CarCard>> WorkshopDesk::releasedCards(int most)
{
    return m_store.run(
        [most](Workshop&, Store& store) { return failing(store.wall().recentlyReleased(most)); });
}

Answer<std::vector<CarCard>> WorkshopDesk::findCars(const QString& text)
{
    return m_store.run(
        [text](Workshop&, Store& store) { return failing(store.wall().find(text)); });
}

Answer<CarState> WorkshopDesk::car(const CarId& id)
{
    return m_store.run([id](Workshop&, Store& store) { return failing(store.ledger().car(id)); });
}

Answer<std::vector<CarEnvelope>> WorkshopDesk::history(const CarId& id)
{
    return m_store.run(
        [id](Workshop&, Store& store) { return failing(store.ledger().history(id)); });
}

Answer<std::optional<CarId>> WorkshopDesk::carByStockNumber(const QString& stockNumber)
{
    return m_store.run([stockNumber](Workshop&, Store& store) {
        return failing(store.ledger().carByStockNumber(stockNumber));
    });
}

Answer<std::vector<SiteFacts>> WorkshopDesk::sitesAfter(const SiteId& site, int most)
{
    using Result = tl::expected<std::vector<SiteFacts>, Failure>;
    return m_store.run([site, most, now = m_clock.now()](Workshop&, Store& store) -> Result {
        if (store.isCopy())
            return tl::unexpected<Failure>(
                StoreError{StoreErrorKind::Unavailable,
                           tr("The workshop's server is away, and this kiosk knows its own site "
                              "only.")});
        return failing(SitesQuery(store.ledger()).after(site, most, now));
    });
}

QFuture<tl::expected<PhotoTaken, EvidenceError>> WorkshopDesk::keepPhotoFile(const QString& path)
{
    return onPhotoPool([path, &photos = m_photos]() -> tl::expected<PhotoTaken, EvidenceError> {
        const QFileInfo info(path);
        const auto bytes =
            DropFolder::read({path, info.fileName(), info.size(), {}}, mostPhotoBytes);
        if (!bytes)
            return tl::unexpected(bytes.error());
        return keepBytes(photos, *bytes);
    });
}

QFuture<tl::expected<PhotoTaken, EvidenceError>>
WorkshopDesk::keepPhotoBytes(const QByteArray& bytes)
{
    return onPhotoPool([bytes, &photos = m_photos] { return keepBytes(photos, bytes); });
}

QFuture<tl::expected<PhotoTaken, EvidenceError>> WorkshopDesk::keepPhoto(const QImage& frame)
{
    return onPhotoPool(
        [frame, &photos = m_photos] { return keepImage(photos, fittedPhoto(frame)); });
}

QFuture<tl::expected<PhotoPair, EvidenceError>> WorkshopDesk::alignPhotos(const PhotoId& before,
                                                                          const PhotoId& after)
{
    return onPool([before, after, &photos = m_photos]() -> tl::expected<PhotoPair, EvidenceError> {
        std::array<QImage, 2> images;
        for (std::size_t i = 0; i < images.size(); ++i) {
            const auto bytes = photos.thumbnail(i == 0 ? before : after, ThumbnailSize::Panel);
            if (!bytes)
                return tl::unexpected(bytes.error());
            if (!images[i].loadFromData(*bytes, "JPG"))
                return tl::unexpected(EvidenceError::KeptDamaged);
        }
        return PhotoPair{ramplight::alignPhotos(images[0], images[1]), images[0].size(),
                         images[1].size()};
    });
}

QFuture<std::vector<PhotoId>> WorkshopDesk::photosSeenBefore(const std::vector<PhotoId>& fresh,
                                                             const std::vector<PhotoId>& earlier)
{
    return onPhotoPool([fresh, earlier, &photos = m_photos] {
        const auto look = [&photos](const PhotoId& photo) {
            const auto bytes = photos.thumbnail(photo, ThumbnailSize::Card);
            return smallGrey(bytes ? QImage::fromData(*bytes, "JPG") : QImage());
        };
        std::vector<QImage> before;
        std::ranges::transform(earlier, std::back_inserter(before), look);
        std::vector<PhotoId> seen;
        for (const PhotoId& photo : fresh) {
            const QImage own = look(photo);
            if (std::ranges::any_of(before, [&own](const QImage& other) {
                    return unlikeness(own, other) <= almostSame;
                }))
                seen.push_back(photo);
            before.push_back(own);
        }
        return seen;
    });
}

QFuture<tl::expected<RecordPages, QString>> WorkshopDesk::makeRecord(const CarId& car)
{
    using Gathered = tl::expected<std::pair<RecordModel, RecordSealer>, QString>;
    const Moment now = m_clock.now();
    QFuture<Gathered> gathered = m_store.run([car, now, line = m_places.standingLine](
                                                 Workshop&, Store& store) -> Gathered {
        // Its fingerprint has to be one of the server's ledger.
        if (store.isCopy())
            return tl::unexpected(
                QStringLiteral("The workshop's server is away. A record can be made when it is "
                               "back."));
        const auto state = store.ledger().car(car);
        const auto history = store.ledger().history(car);
        const auto site = store.ledger().site();
        const auto head = store.ledger().head(car);
        for (const StoreError* error :
             {state ? nullptr : &state.error(), history ? nullptr : &history.error(),
              site ? nullptr : &site.error(), head ? nullptr : &head.error()})
            if (error != nullptr)
                return tl::unexpected(error->words);
        const HeadKeeper& keeper = store.ledger().keeper();
        return std::pair{buildRecord(*state, *history, *site, {head->seq, head->hash}, line, now),
                         RecordSealer{keeper.keyId, keeper.digest}};
    });
    return gathered.then(
        &m_pool, [&photos = m_photos](const Gathered& found) -> tl::expected<RecordPages, QString> {
            if (!found)
                return tl::unexpected(found.error());
            const auto& [model, sealer] = *found;
            const auto pdf = renderPdf(model, photos, sealer);
            if (!pdf)
                return tl::unexpected(pdf.error());
            return RecordPages{*pdf, model.fingerprint, renderPages(model, photos)};
        });
}

QFuture<tl::expected<QString, QString>> WorkshopDesk::saveRecord(const QString& stockNumber,
                                                                 const QByteArray& pdf)
{
    using Result = tl::expected<QString, QString>;
    return onPool([stockNumber, pdf, folder = m_places.recordFolder]() -> Result {
        QString name = stockNumber;
        for (QChar& c : name)
            if (!c.isLetterOrNumber() && c != QLatin1Char('-'))
                c = QLatin1Char('_');
        const QString path = QDir(folder).filePath(QStringLiteral("record-%1.pdf").arg(name));
        if (const auto kept = writeFileDurably(path, folder, pdf); !kept)
            return tl::unexpected(
                QStringLiteral("The record was not saved to %1: %2. It is still on "
                               "the screen; try again.")
                    .arg(path, whyNotWritten(kept.error())));
        return path;
    });
}

} // namespace ramplight
