// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/photoprovider.h"

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

} // namespace

class TestPhotoProvider : public QObject
{
    Q_OBJECT

private slots:
    void close_waitsForWhatIsBeingRead();
    void afterClose_theVaultIsNotAsked();
};

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

QTEST_GUILESS_MAIN(ramplight::TestPhotoProvider)
#include "tst_photoprovider.moc"
