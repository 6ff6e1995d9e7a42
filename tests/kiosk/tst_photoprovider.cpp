// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/photoprovider.h"

#include "kiosk/photourl.h"
#include "support/testmain.h"

#include <QBuffer>
#include <QPainter>
#include <QSemaphore>
#include <QSignalSpy>
#include <QTest>

#include <atomic>
#include <thread>

namespace ramplight {

namespace {

/// A vault that answers when it is let, and counts who is still inside.
class SlowVault : public PhotoVault
{
public:
    tl::expected<StoredPhoto, EvidenceError> keep(const QImage&) override
    {
        return tl::unexpected(EvidenceError::CannotWrite);
    }
    tl::expected<QByteArray, EvidenceError> open(const PhotoId&) const override { return wait(); }
    tl::expected<QByteArray, EvidenceError> thumbnail(const PhotoId&, ThumbnailSize) const override
    {
        return wait();
    }
    tl::expected<VaultReport, EvidenceError> verify(const std::set<PhotoId>&) const override
    {
        return VaultReport{};
    }

    mutable QSemaphore entered;
    mutable QSemaphore goOn;
    mutable std::atomic<int> inside = 0;
    mutable std::atomic<int> asked = 0;

private:
    tl::expected<QByteArray, EvidenceError> wait() const
    {
        ++asked;
        ++inside;
        entered.release();
        goOn.acquire();
        --inside;
        return tl::unexpected(EvidenceError::NoSuchPhoto);
    }
};

/// One picture, whatever is asked for: a cross of four colours.
class OnePhoto : public SlowVault
{
public:
    OnePhoto()
    {
        QImage image(400, 300, QImage::Format_RGB32);
        QPainter painter(&image);
        painter.fillRect(0, 0, 200, 150, Qt::red);
        painter.fillRect(200, 0, 200, 150, Qt::green);
        painter.fillRect(0, 150, 200, 150, Qt::blue);
        painter.fillRect(200, 150, 200, 150, Qt::yellow);
        QBuffer buffer(&m_bytes);
        image.save(&buffer, "JPG", 100);
    }
    tl::expected<QByteArray, EvidenceError> open(const PhotoId&) const override { return m_bytes; }

private:
    QByteArray m_bytes;
};

QImage fetched(PhotoProvider& provider, const QString& url, QSize size)
{
    const QString address = QStringLiteral("image://photo/");
    const std::unique_ptr<QQuickImageResponse> response(
        provider.requestImageResponse(url.mid(address.size()), size));
    QSignalSpy finished(response.get(), &QQuickImageResponse::finished);
    if (finished.count() == 0 && !finished.wait())
        return {};
    const std::unique_ptr<QQuickTextureFactory> texture(response->textureFactory());
    return texture ? texture->image() : QImage();
}

/// Which of the four it is, at a share of width and height.
QString colourAt(const QImage& image, double x, double y)
{
    const QColor c =
        image.pixelColor(static_cast<int>(x * image.width()), static_cast<int>(y * image.height()));
    const bool red = c.red() > 128;
    const bool green = c.green() > 64;
    return red && green ? QStringLiteral("yellow")
           : red        ? QStringLiteral("red")
           : green      ? QStringLiteral("green")
                        : QStringLiteral("blue");
}

} // namespace

class TestPhotoProvider : public QObject
{
    Q_OBJECT

private slots:
    void close_waitsForWhatIsBeingRead();
    void afterClose_theVaultIsNotAsked();
    void laidPhoto_showsThePartAsItLies_data();
    void laidPhoto_showsThePartAsItLies();
    void laidAddress_thatSaysNothing_isNone_data();
    void laidAddress_thatSaysNothing_isNone();
    void wholePhoto_isNoLargerThanAskedFor();
};

void TestPhotoProvider::laidPhoto_showsThePartAsItLies_data()
{
    QTest::addColumn<Similarity>("similarity");
    QTest::addColumn<QRectF>("part");
    QTest::addColumn<QStringList>("corners"); // upper left, upper right, lower left, lower right
    const QRectF whole(-0.5, -0.375, 1, 0.75);
    const QStringList all{"red", "green", "blue", "yellow"};
    QTest::newRow("whole") << Similarity{} << whole << all;
    QTest::newRow("from nearer") << Similarity{2, 0, 0, 0} << QRectF(-0.2, -0.15, 0.4, 0.3) << all;
    QTest::newRow("its lower right part") << Similarity{} << QRectF(0.05, 0.05, 0.4, 0.3)
                                          << QStringList{"yellow", "yellow", "yellow", "yellow"};
    QTest::newRow("what is further right there")
        << Similarity{1, 0, 0.3, 0} << QRectF(-0.2, -0.375, 0.4, 0.75)
        << QStringList{"green", "green", "yellow", "yellow"};
    // A quarter turn: what is right there is below here.
    QTest::newRow("turned") << Similarity{0, -1, 0, 0} << QRectF(-0.3, -0.3, 0.6, 0.6)
                            << QStringList{"blue", "red", "yellow", "green"};
}

void TestPhotoProvider::laidPhoto_showsThePartAsItLies()
{
    QFETCH(const Similarity, similarity);
    QFETCH(const QRectF, part);
    QFETCH(const QStringList, corners);
    OnePhoto vault;
    PhotoProvider provider(vault);
    const QImage image =
        fetched(provider, laidUrl({{QStringLiteral("a")}, similarity, part}), {160, 120});
    QCOMPARE(image.size(), QSize(160, 120));
    QCOMPARE((QStringList{colourAt(image, 0.1, 0.1), colourAt(image, 0.9, 0.1),
                          colourAt(image, 0.1, 0.9), colourAt(image, 0.9, 0.9)}),
             corners);
    // Its size may be left to the provider.
    const QImage free = fetched(provider, laidUrl({{QStringLiteral("a")}, similarity, part}), {});
    QCOMPARE(std::max(free.width(), free.height()), 640);
}

void TestPhotoProvider::laidAddress_thatSaysNothing_isNone_data()
{
    QTest::addColumn<QString>("address");
    QTest::newRow("nothing") << QString();
    QTest::newRow("an id alone") << QStringLiteral("a");
    QTest::newRow("no part") << QStringLiteral("a/1,0,0,0");
    QTest::newRow("three numbers") << QStringLiteral("a/1,0,0/0,0,1,1");
    QTest::newRow("a word") << QStringLiteral("a/1,0,0,x/0,0,1,1");
    QTest::newRow("no number") << QStringLiteral("a/1,0,0,nan/0,0,1,1");
    QTest::newRow("an empty part") << QStringLiteral("a/1,0,0,0/0,0,0,1");
    QTest::newRow("a part turned round") << QStringLiteral("a/1,0,0,0/0,0,1,-1");
}

void TestPhotoProvider::laidAddress_thatSaysNothing_isNone()
{
    QFETCH(const QString, address);
    QVERIFY(!laidPhoto(address));
    OnePhoto vault;
    PhotoProvider provider(vault);
    QVERIFY(fetched(provider, QStringLiteral("image://photo/laid/") + address, {10, 10}).isNull());
}

void TestPhotoProvider::wholePhoto_isNoLargerThanAskedFor()
{
    OnePhoto vault;
    PhotoProvider provider(vault);
    const QString url = QStringLiteral("image://photo/full/a");
    QCOMPARE(fetched(provider, url, {100, 50}).size(), QSize(100, 75));
    QCOMPARE(fetched(provider, url, {1000, 1000}).size(), QSize(400, 300));
    QCOMPARE(fetched(provider, url, {}).size(), QSize(400, 300));
}

void TestPhotoProvider::close_waitsForWhatIsBeingRead()
{
    SlowVault vault;
    PhotoProvider provider(vault);
    const std::unique_ptr<QQuickImageResponse> first(
        provider.requestImageResponse(QStringLiteral("full/a"), {}));
    const std::unique_ptr<QQuickImageResponse> second(
        provider.requestImageResponse(QStringLiteral("full/b"), {}));
    vault.entered.acquire();
    std::thread disk([&vault] { vault.goOn.release(2); });
    provider.close();
    QCOMPARE(vault.inside.load(), 0);
    const int asked = vault.asked.load();
    disk.join();
    const std::unique_ptr<QQuickImageResponse> third(
        provider.requestImageResponse(QStringLiteral("full/c"), {}));
    QCOMPARE(vault.asked.load(), asked);
}

void TestPhotoProvider::afterClose_theVaultIsNotAsked()
{
    SlowVault vault;
    PhotoProvider provider(vault);
    provider.close();
    const std::unique_ptr<QQuickImageResponse> response(
        provider.requestImageResponse(QStringLiteral("card/a"), {}));
    QSignalSpy finished(response.get(), &QQuickImageResponse::finished);
    QVERIFY(finished.count() == 1 || finished.wait());
    QVERIFY(!response->errorString().isEmpty());
    QCOMPARE(vault.asked.load(), 0);
}

} // namespace ramplight

RAMPLIGHT_TEST(QGuiApplication, ramplight::TestPhotoProvider)
#include "tst_photoprovider.moc"
