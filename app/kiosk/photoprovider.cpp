// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/photoprovider.h"

#include "evidence/dropfolder.h"
#include "evidence/photodecoder.h"
#include "kiosk/onpool.h"
#include "kiosk/photourl.h"

#include <QBuffer>
#include <QFuture>
#include <QFutureWatcher>
#include <QImageReader>
#include <QPainter>
#include <QQuickTextureFactory>
#include <QUrl>

namespace ramplight {

namespace {

using Loaded = tl::expected<QImage, QString>;

/// More than any wall has across.
constexpr int largestSide = 4096;

QSize asItIs(const QSize& whole)
{
    return whole;
}

/// A kept photo was made by this program, so it can be decoded without another look at its inside.
/// Scaled while it is read: whole pictures have five million pixels.
/// @param size what it is drawn at, from what it has
template <typename Size>
Loaded fromVault(const tl::expected<QByteArray, EvidenceError>& bytes, const Size& size)
{
    if (!bytes)
        return tl::unexpected(words(bytes.error()));
    QBuffer buffer;
    buffer.setData(*bytes);
    QImageReader reader(&buffer, "JPG");
    const QSize whole = reader.size();
    if (const QSize drawn = size(whole); drawn != whole)
        reader.setScaledSize(drawn);
    const QImage image = reader.read();
    if (image.isNull())
        return tl::unexpected(words(EvidenceError::KeptDamaged));
    return image.convertToFormat(QImage::Format_RGB32);
}

/// No larger than it is needed, and never larger than it is.
Loaded shrunkFromVault(const tl::expected<QByteArray, EvidenceError>& bytes, double longSide)
{
    return fromVault(bytes, [longSide](const QSize& whole) {
        const double share = longSide / std::max({1, whole.width(), whole.height()});
        return share < 1 ? (QSizeF(whole) * share).toSize().expandedTo(QSize(1, 1)) : whole;
    });
}

/// As large as the screen has room for, so that it is drawn as it is.
Loaded fittedFromVault(const tl::expected<QByteArray, EvidenceError>& bytes, const QSize& wanted)
{
    return fromVault(bytes, [&wanted](const QSize& whole) {
        return wanted.isEmpty() ? whole : whole.scaled(wanted, Qt::KeepAspectRatio);
    });
}

Loaded fromFile(const QString& path, const QSize& wanted)
{
    DropCandidate candidate;
    candidate.path = path;
    PhotoLimits limits;
    const auto bytes = DropFolder::read(candidate, limits.mostBytes);
    if (!bytes)
        return tl::unexpected(words(bytes.error()));
    limits.longSide =
        std::max({static_cast<int>(ThumbnailSize::Card), wanted.width(), wanted.height()});
    const auto image = decodePhoto(*bytes, limits);
    if (!image)
        return tl::unexpected(words(image.error()));
    return *image;
}

Loaded laidDown(const PhotoVault& vault, const LaidPhoto& laid, const QSize& wanted)
{
    const QSize size = QSizeF(laid.part.size() * (static_cast<int>(ThumbnailSize::Panel) /
                                                  std::max(laid.part.width(), laid.part.height())))
                           .toSize()
                           .expandedTo(QSize(1, 1));
    QImage image(wanted.isEmpty() ? size : wanted.boundedTo({largestSide, largestSide}),
                 QImage::Format_RGB32);
    const QTransform toPart = QTransform::fromScale(laid.part.width() / image.width(),
                                                    laid.part.height() / image.height()) *
                              QTransform::fromTranslate(laid.part.x(), laid.part.y());
    const double finest =
        std::max(image.width() / laid.part.width(), image.height() / laid.part.height());
    const auto photo =
        shrunkFromVault(vault.open(laid.photo), finest / std::max(0.01, laid.fromBefore.scale()));
    if (!photo)
        return photo;
    const double side = std::max(photo->width(), photo->height());
    const Similarity& s = laid.fromBefore;
    const QTransform toPhoto =
        toPart * QTransform(s.a, s.b, -s.b, s.a, s.right, s.down) *
        QTransform::fromScale(side, side) *
        QTransform::fromTranslate(photo->width() / 2.0, photo->height() / 2.0);
    image.fill(Qt::black);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.setTransform(toPhoto.inverted());
    painter.drawImage(QPointF(0, 0), *photo);
    return image;
}

Loaded load(const PhotoVault& vault, const QString& id, const QSize& wanted)
{
    const QString kind = id.section(QLatin1Char('/'), 0, 0);
    const QString rest = id.section(QLatin1Char('/'), 1);
    if (kind == QLatin1StringView("drop"))
        return fromFile(QUrl::fromPercentEncoding(rest.toLatin1()), wanted);
    if (kind == QLatin1StringView("laid")) {
        const auto laid = laidPhoto(rest);
        return laid ? laidDown(vault, *laid, wanted)
                    : Loaded(tl::unexpected(words(EvidenceError::NoSuchPhoto)));
    }
    const PhotoId photo{rest};
    if (kind == QLatin1StringView("full"))
        return shrunkFromVault(vault.open(photo), wanted.isEmpty()
                                                      ? largestSide
                                                      : std::max(wanted.width(), wanted.height()));
    if (kind == QLatin1StringView("fitted"))
        return fittedFromVault(vault.open(photo), wanted);
    return fromVault(vault.thumbnail(photo, kind == QLatin1StringView("card")
                                                ? ThumbnailSize::Card
                                                : ThumbnailSize::Panel),
                     asItIs);
}

class Response : public QQuickImageResponse
{
public:
    explicit Response(const QFuture<Loaded>& future)
    {
        connect(&m_watcher, &QFutureWatcher<Loaded>::finished, this, [this] {
            if (m_watcher.future().resultCount() > 0) {
                const Loaded loaded = m_watcher.result();
                if (loaded)
                    m_image = *loaded;
                else
                    m_fault = loaded.error();
            } else {
                m_fault = QStringLiteral("cancelled");
            }
            emit finished();
        });
        m_watcher.setFuture(future);
    }

    [[nodiscard]] QQuickTextureFactory* textureFactory() const override
    {
        return QQuickTextureFactory::textureFactoryForImage(m_image);
    }
    [[nodiscard]] QString errorString() const override { return m_fault; }

private:
    QFutureWatcher<Loaded> m_watcher;
    QImage m_image;
    QString m_fault;
};

} // namespace

PhotoProvider::PhotoProvider(const PhotoVault& vault)
    : m_vault(vault)
{
    // Two cores on the wall, and one of them draws.
    m_pool.setMaxThreadCount(1);
}

PhotoProvider::~PhotoProvider()
{
    close();
}

void PhotoProvider::close()
{
    const QMutexLocker gate(&m_gate);
    m_closed = true;
    m_pool.clear();
    m_pool.waitForDone();
}

QQuickImageResponse* PhotoProvider::requestImageResponse(const QString& id,
                                                         const QSize& requestedSize)
{
    const QMutexLocker gate(&m_gate);
    if (m_closed)
        return new Response(
            QtFuture::makeReadyFuture(Loaded(tl::unexpected(QStringLiteral("the kiosk closes")))));
    return new Response(onPool(
        m_pool, [vault = &m_vault, id, requestedSize] { return load(*vault, id, requestedSize); }));
}

PageProvider::PageProvider(std::shared_ptr<const RecordPagesShelf> shelf)
    : QQuickImageProvider(QQuickImageProvider::Image)
    , m_shelf(std::move(shelf))
{
}

QImage PageProvider::requestImage(const QString& id, QSize* size, const QSize&)
{
    const QImage page = m_shelf->page(id.section(QLatin1Char('/'), 0, 0).toInt(),
                                      id.section(QLatin1Char('/'), 1, 1).toInt());
    if (size != nullptr)
        *size = page.size();
    return page;
}

} // namespace ramplight
