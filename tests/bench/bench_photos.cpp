// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/flicks.h"
#include "bench/report.h"
#include "phone/phonewire.h"
#include "screens/wheelwork.h"

#include <QElapsedTimer>
#include <QPainter>
#include <QQuickItem>
#include <QQuickWindow>
#include <QRandomGenerator>
#include <QTcpServer>
#include <QTcpSocket>
#include <QTest>

#include <atomic>
#include <thread>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// As a telephone makes it: 12 megapixels with grain, so that it is as hard to read as a real one.
void writePhoto(const QString& path, int number)
{
    QImage image(4000, 3000, QImage::Format_RGB32);
    image.fill(QColor::fromHsv(number * 47 % 360, 60, 150));
    QRandomGenerator random(static_cast<quint32>(number));
    for (int y = 0; y < image.height(); ++y) {
        auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < image.width(); ++x)
            line[x] ^= random.generate() & 0x000F0F0FU;
    }
    QPainter painter(&image);
    for (int i = 0; i < 200; ++i)
        painter.drawEllipse(QPoint(random.bounded(4000), random.bounded(3000)), 200, 90);
    painter.end();
    if (!image.save(path, "JPG", 92))
        qFatal("%s cannot be written", qPrintable(path));
}

/// Strangers on the workshop's network, as long as it lives: requests that never end, heads without
/// end, photos for codes that nobody gave out; a crowd at a time, as fast as they are dropped.
class Strangers
{
public:
    explicit Strangers(quint16 port)
        : m_thread([this, port] { press(port); })
    {
    }
    ~Strangers()
    {
        m_stop = true;
        m_thread.join();
    }
    Q_DISABLE_COPY_MOVE(Strangers)

    [[nodiscard]] int asked() const { return m_asked; }

private:
    void press(quint16 port)
    {
        constexpr int crowd = 60;
        constexpr int patienceMs = 20;
        const QByteArrayList said{
            "GET /", "GET / HTTP/1.1\r\nHost: x\r\nA: " + QByteArray(200'000, 'a'),
            post(QStringLiteral("/00000000000000000000000000000000"), {QByteArray(300'000, 'b')})};
        while (!m_stop) {
            std::vector<std::unique_ptr<QTcpSocket>> sockets;
            for (int i = 0; i < crowd && !m_stop; ++i) {
                auto socket = std::make_unique<QTcpSocket>();
                socket->connectToHost(QStringLiteral("127.0.0.1"), port);
                if (!socket->waitForConnected(patienceMs))
                    continue;
                socket->write(said.at(i % said.size()));
                socket->waitForBytesWritten(patienceMs);
                sockets.push_back(std::move(socket));
                ++m_asked;
            }
        }
    }

    std::atomic_bool m_stop = false;
    std::atomic_int m_asked = 0;
    std::thread m_thread;
};

quint16 freePort()
{
    QTcpServer server;
    if (!server.listen(QHostAddress::LocalHost))
        qFatal("no port");
    return server.serverPort();
}

} // namespace

// The camera's sheet while photos are read, looked at, made small and kept, and while strangers
// press on the page for phones, against the same sheet while nothing else is done.
class BenchPhotos : public QObject
{
    Q_OBJECT

public:
    // A bench takes as long as it takes.
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3600000"); }

private slots:
    void photos()
    {
        constexpr int files = 6;
        KioskBench bench(BenchHouse::Start::House);
        const Wheel wheel(bench.house());
        QTemporaryDir folder;
        QStringList paths;
        for (int number = 0; number < files; ++number) {
            paths.append(folder.filePath(QStringLiteral("%1.jpg").arg(number)));
            writePhoto(paths.last(), number);
        }
        openCamera(bench, wheel);
        if (QTest::currentTestFailed())
            return;

        std::vector<double> idle;
        std::vector<double> busy;
        int kept = 0;
        for (int round = 0; round < rounds; ++round) {
            frames(bench, framesPerRound, idle);
            // As many as are picked at once; as soon as they are done they come again.
            const std::size_t wanted = busy.size() + framesPerRound;
            while (busy.size() < wanted) {
                QList<QFuture<tl::expected<PhotoTaken, EvidenceError>>> coming;
                for (const QString& path : paths)
                    coming.append(bench.house().desk().keepPhotoFile(path));
                while (!coming.last().isFinished() && busy.size() < wanted)
                    frames(bench, 1, busy);
                for (auto& each : coming) {
                    each.waitForFinished();
                    QVERIFY(each.result().has_value());
                    ++kept;
                }
            }
        }
        qInfo("nothing else: %s", qPrintable(spread(idle)));
        qInfo("while %d photos of 12 megapixels were kept: %s", kept, qPrintable(spread(busy)));
        tell(QStringLiteral("photos, latest frame by the idle p99"), quantile(busy, 1),
             quantile(idle, 0.99), QStringLiteral("ms"), Aim::AtMost, 2.0);
        tell(QStringLiteral("photos, p99 of a frame"), quantile(busy, 0.99), quantile(idle, 0.99),
             QStringLiteral("ms"), Aim::AtMost, 2.0);
    }

    void strangers()
    {
        KioskBench bench(BenchHouse::Start::House);
        const Wheel wheel(bench.house());
        openCamera(bench, wheel);
        if (QTest::currentTestFailed())
            return;
        const quint16 port = freePort();
        QCOMPARE(bench.shell().phone()->serve({QStringLiteral("127.0.0.1"), port}), QString());
        std::vector<double> idle;
        std::vector<double> busy;
        int asked = 0;
        for (int round = 0; round < rounds; ++round) {
            frames(bench, framesPerRound, idle);
            const Strangers strangers(port);
            while (strangers.asked() < 1)
                std::this_thread::yield();
            frames(bench, framesPerRound, busy);
            asked += strangers.asked();
        }
        qInfo("nothing else: %s", qPrintable(spread(idle)));
        qInfo("while strangers asked %d times: %s", asked, qPrintable(spread(busy)));
        tell(QStringLiteral("strangers, p99 of a frame"), quantile(busy, 0.99),
             quantile(idle, 0.99), QStringLiteral("ms"), Aim::AtMost, 2.0);
    }

private:
    static constexpr int rounds = 40;
    static constexpr int framesPerRound = 60;

    static void openCamera(KioskBench& bench, const Wheel& wheel)
    {
        // The picture before, so that it lies over the camera's.
        const auto before = bench.house().photos().keep(panelPicture(Qt::darkRed, {2560, 1440}));
        QVERIFY(before);
        bench.house().must(bench.house().person(QStringLiteral("Bram")), wheel.car,
                           {car::AttachPhoto{before->id,
                                             PhotoMoment::Before,
                                             PlaceId{QStringLiteral("wheel-front-left")},
                                             wheel.work,
                                             {}}});
        bench.putCamera();
        bench.show();
        QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
        bench.camera().show(panelPicture(Qt::darkCyan, {1920, 1080}));
        QVERIFY(bench.tap(QStringLiteral("after: Face and lip, same light")));
        QVERIFY(bench.untilSays(QStringLiteral("Clearer")));
        QTest::qWait(500); // until the picture before is read
        bench.camera().byHand();
    }

    /// Adds the milliseconds of each: a frame of the camera, what follows from it, drawing.
    static void frames(KioskBench& bench, int count, std::vector<double>& took)
    {
        QElapsedTimer timer;
        for (int i = 0; i < count; ++i) {
            timer.start();
            if (!bench.camera().frame())
                qFatal("nobody looks at the camera");
            QCoreApplication::processEvents();
            QEvent update(QEvent::UpdateRequest);
            QCoreApplication::sendEvent(bench.window(), &update);
            took.push_back(double(timer.nsecsElapsed()) / 1e6);
        }
    }
};

QTEST_MAIN(BenchPhotos)
#include "bench_photos.moc"
