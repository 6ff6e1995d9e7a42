// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/phonewire.h"
#include "support/testmain.h"
#include "walkhands.h"
#include "wheelwork.h"

#include "evidence/evidenceerror.h"

#include <QBuffer>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTcpSocket>
#include <QTest>
#include <QTimer>
#include <QUrl>

#include <algorithm>
#include <memory>

using namespace ramplight;
using namespace ramplight::test;

/// A phone as the camera: the code on the sheet by touch, the phone over a real socket, and what
/// came of it read from the ledger.
class tst_PhoneSheet : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void code_bringsPhotosToTheWork_data();
    void code_bringsPhotosToTheWork();
    void invitedPhone_getsThrough_whileStrangersPress();
    void badFile_isToldOnBothScreens();
    void lock_leavesTheCodeToItsOwner();
    void finding_getsItsPhotoByPhone();
    void missingAddress_isSaid_andSetInTheSettings_data();
    void missingAddress_isSaid_andSetInTheSettings();
    void overCode_offersANewOne();
};

namespace {

/// Serves phones on loopback, on whatever port is free.
void serve(KioskBench& bench)
{
    QCOMPARE(bench.shell().phone()->serve({QStringLiteral("127.0.0.1"), 0}), QString());
}

/// From the operation to a code for the photo of afterwards.
bool openCode(KioskBench& bench)
{
    return bench.tap(afterPlace) && bench.tap(QStringLiteral("Use a phone")) &&
           bench.until([&] { return bench.shell().phone()->isOpen(); }, QStringLiteral("a code"));
}

WireAnswer send(const QString& address, const QByteArray& photo)
{
    const QUrl url(address);
    return ask(static_cast<quint16>(url.port()), post(url.path(), {photo}, "X-Ramplight: one\r\n"));
}

int seen(const QString& address)
{
    const QUrl url(address);
    return ask(static_cast<quint16>(url.port()), get(url.path())).status;
}

QByteArray picture(const QColor& colour)
{
    QImage image(1600, 1200, QImage::Format_RGB32);
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            image.setPixelColor(x, y, (x / 40 + y / 40) % 2 == 0 ? colour : colour.darker());
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "JPG");
    return bytes;
}

/// Sixty sockets of a machine that is not the phone's: each begins a request that never ends, and
/// comes again as soon as it is closed.
class Strangers
{
public:
    explicit Strangers(quint16 port)
        : m_port(port)
    {
        for (int i = 0; i < 60; ++i) {
            auto socket = std::make_unique<QTcpSocket>();
            QObject::connect(
                socket.get(), &QTcpSocket::connected, socket.get(), [this, each = socket.get()] {
                    ++m_came;
                    each->write(m_came % 2 == 0 ? "GET /" : "POST / HTTP/1.1\r\nHost: ");
                });
            QObject::connect(socket.get(), &QTcpSocket::disconnected, socket.get(),
                             [this, each = socket.get()] {
                                 ++m_closed;
                                 QTimer::singleShot(0, each, [this, each] { press(*each); });
                             });
            press(*socket);
            m_sockets.push_back(std::move(socket));
        }
    }
    Strangers(const Strangers&) = delete;
    Strangers& operator=(const Strangers&) = delete;
    ~Strangers()
    {
        for (const auto& socket : m_sockets) {
            socket->disconnect();
            socket->abort();
        }
    }

    [[nodiscard]] int came() const { return m_came; }
    [[nodiscard]] int closed() const { return m_closed; }

private:
    void press(QTcpSocket& socket) const
    {
        socket.abort();
        // All of 127.0.0.0/8 is this machine.
        if (socket.bind(QHostAddress(QStringLiteral("127.0.0.2"))))
            socket.connectToHost(QHostAddress(QHostAddress::LocalHost), m_port);
    }

    quint16 m_port;
    int m_came = 0;
    int m_closed = 0;
    std::vector<std::unique_ptr<QTcpSocket>> m_sockets;
};

std::vector<AttachedPhoto> photosOf(BenchHouse& house, const Wheel& wheel)
{
    std::vector<AttachedPhoto> photos;
    std::ranges::copy_if(house.car(wheel.car).photos, std::back_inserter(photos),
                         [&](const AttachedPhoto& each) { return each.operation == wheel.work; });
    return photos;
}

} // namespace

void tst_PhoneSheet::code_bringsPhotosToTheWork_data()
{
    sizes();
}

void tst_PhoneSheet::code_bringsPhotosToTheWork()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show(size);
    serve(bench);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(openCode(bench));
    const QString address = bench.shell().phone()->address();
    QVERIFY(bench.untilSays(address));
    QVERIFY(bench.says(QStringLiteral("Holds for 10 more minutes, for these photos only")));
    QVERIFY(bench.says(QStringLiteral("No photo has come yet.")));
    bench.shoot(QStringLiteral("phone-code"));

    QCOMPARE(send(address, picture(Qt::darkCyan)).status, 200);
    QCOMPARE(send(address, picture(Qt::darkMagenta)).status, 200);
    const auto photos = photosOf(house, wheel);
    QCOMPARE(photos.size(), std::size_t{2});
    for (const AttachedPhoto& photo : photos) {
        QCOMPARE(photo.moment, PhotoMoment::After);
        QCOMPARE(photo.by, house.person(QStringLiteral("Bram")));
        QVERIFY(house.photos().open(photo.photo).has_value());
    }
    QVERIFY(bench.untilSays(QStringLiteral("2 photos have come.")));
    QVERIFY(send(address, picture(Qt::darkCyan).left(300)).status != 200);
    QVERIFY(bench.untilSays(QStringLiteral("2 photos have come. One was not taken.")));
    QTest::qWait(300); // until their pictures are drawn
    bench.shoot(QStringLiteral("phone-photos"));

    QVERIFY(bench.tap(QStringLiteral("Done")));
    QVERIFY(bench.until([&] { return bench.ofType("PhotoSheet").empty(); },
                        QStringLiteral("the operation")));
    QCOMPARE(seen(address), 404);
    QVERIFY(
        bench.until([&] { return bench.shell().operation()->photoNeeds()->rows().back().present; },
                    QStringLiteral("the photo's place filled")));
}

void tst_PhoneSheet::invitedPhone_getsThrough_whileStrangersPress()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    serve(bench);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(openCode(bench));
    const QString address = bench.shell().phone()->address();
    const Strangers strangers(static_cast<quint16>(QUrl(address).port()));
    // More came than have room, and were shown out.
    QTRY_VERIFY_WITH_TIMEOUT(strangers.came() > 60 && strangers.closed() > 20, 30'000);

    int frames = 0;
    connect(bench.window(), &QQuickWindow::frameSwapped, this, [&] {
        ++frames;
        bench.window()->update();
    });
    bench.window()->update();
    const int before = strangers.came();
    for (const Qt::GlobalColor colour : {Qt::darkCyan, Qt::darkMagenta, Qt::darkYellow}) {
        const int drawn = frames;
        QCOMPARE(send(address, picture(colour)).status, 200);
        QVERIFY2(frames > drawn, "no frame was drawn while the photo came");
    }
    QVERIFY(strangers.came() > before);
    QCOMPARE(photosOf(house, wheel).size(), std::size_t{3});
    QVERIFY(bench.untilSays(QStringLiteral("3 photos have come.")));
    bench.window()->disconnect(this);
    QVERIFY(bench.tap(QStringLiteral("Done")));
    QVERIFY(bench.until([&] { return bench.ofType("PhotoSheet").empty(); },
                        QStringLiteral("the operation")));
}

void tst_PhoneSheet::badFile_isToldOnBothScreens()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    serve(bench);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(openCode(bench));
    const QString address = bench.shell().phone()->address();
    const WireAnswer answer = send(address, "%PDF-1.7 no photo at all");
    QCOMPARE(answer.status, 422);
    QCOMPARE(QString::fromUtf8(answer.body),
             QStringLiteral("Not taken. ") + words(EvidenceError::NotAPhoto));
    QVERIFY(bench.untilSays(words(EvidenceError::NotAPhoto)));
    QVERIFY(bench.says(QStringLiteral("not taken")));
    bench.shoot(QStringLiteral("phone-refused"));
    QVERIFY(photosOf(house, wheel).empty());
    QCOMPARE(send(address, picture(Qt::darkCyan)).status, 200);
    QCOMPARE(photosOf(house, wheel).size(), std::size_t{1});
}

void tst_PhoneSheet::lock_leavesTheCodeToItsOwner()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    serve(bench);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(openCode(bench));
    const QString address = bench.shell().phone()->address();
    // As after the lock time: nobody is signed in, and the wall is shown.
    bench.shell().session()->signOut();
    emit bench.shell().session()->timedOut();
    QVERIFY(bench.until([&] { return bench.ofType("OperationScreen").empty(); },
                        QStringLiteral("the wall")));
    QVERIFY(bench.shell().phone()->address().isEmpty());
    QCOMPARE(send(address, picture(Qt::darkCyan)).status, 200);
    QCOMPARE(photosOf(house, wheel).front().by, house.person(QStringLiteral("Bram")));
    // The same code when the same person asks for the same photos again.
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(bench.ofType("PhotoNeed").back()));
    QVERIFY(bench.tap(QStringLiteral("Use a phone")));
    QVERIFY(bench.untilSays(address));
    QVERIFY(bench.untilSays(QStringLiteral("One photo has come.")));
    QVERIFY(bench.tap(QStringLiteral("Done")));
    QCOMPARE(seen(address), 404);
}

void tst_PhoneSheet::finding_getsItsPhotoByPhone()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    serve(bench);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")) &&
            bench.signIn(QStringLiteral("Bram Holloway")) && bench.openCar(QStringLiteral("K-7")));
    const FindingId kerbed = house.car(wheel.car).operation(wheel.work)->findings.front();
    bench.shell().phone()->inviteForFinding(kerbed.value, QString());
    QVERIFY(bench.shell().phone()->isOpen());
    QCOMPARE(send(bench.shell().phone()->address(), picture(Qt::darkCyan)).status, 200);
    const AttachedPhoto photo = house.car(wheel.car).photos.back();
    QCOMPARE(photo.finding, kerbed);
    QCOMPARE(photo.moment, PhotoMoment::Before);
    QCOMPARE(photo.place, PlaceId{QStringLiteral("wheel-front-left")});

    // The car itself likewise.
    bench.shell().phone()->inviteForFinding(0, QString());
    QVERIFY(bench.shell().phone()->isOpen());
    QCOMPARE(send(bench.shell().phone()->address(), picture(Qt::darkRed)).status, 200);
    const AttachedPhoto ofCar = house.car(wheel.car).photos.back();
    QVERIFY(ofCar.finding.isNull() && ofCar.operation.isNull());
    QCOMPARE(ofCar.moment, PhotoMoment::Before);
}

void tst_PhoneSheet::missingAddress_isSaid_andSetInTheSettings_data()
{
    sizes();
}

void tst_PhoneSheet::missingAddress_isSaid_andSetInTheSettings()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    const Wheel wheel(bench.house());
    bench.show(size);
    PhoneCamera* phone = bench.shell().phone();
    QCOMPARE(phone->serve({QString(), 0}), QString());
    QVERIFY(goTo(bench, QStringLiteral("Runa Talbeck"), wheel.car, wheel.work));
    QVERIFY(bench.tap(afterPlace) && bench.tap(QStringLiteral("Use a phone")));
    QVERIFY(bench.untilSays(QStringLiteral("This kiosk has no address for phones")));
    QVERIFY(!phone->isOpen());
    bench.shoot(QStringLiteral("phone-no-address"));
    QVERIFY(bench.tap(QStringLiteral("Done")));
    emit bench.shell().wallWanted();

    QVERIFY(bench.tap(QStringLiteral("Staff and bays")) && bench.tap(QStringLiteral("Settings")) &&
            bench.tap(QStringLiteral("Screen")) && bench.tap(QStringLiteral("Photos from phones")));
    QVERIFY(bench.untilSays(QStringLiteral("Address")));
    bench.shoot(QStringLiteral("phone-address"));
    // One that is not this machine's is refused at once.
    QVERIFY(bench.write(QStringLiteral("Address"), QStringLiteral("203.0.113.9")));
    QVERIFY(bench.tap(QStringLiteral("Save")) && bench.enterPin());
    QVERIFY(bench.until([&] { return bench.shell().phoneAddress()->ask()->refused(); },
                        QStringLiteral("the refusal")));
    QCOMPARE(phone->settings().address, QString());
    bench.shoot(QStringLiteral("phone-address-refused"));
    for (QQuickItem* field : bench.ofType("PhoneAddressSheet"))
        field->findChild<QQuickItem*>(QStringLiteral("typed"))->setProperty("text", QString());
    QVERIFY(bench.write(QStringLiteral("Address"), QStringLiteral("127.0.0.1")));
    QVERIFY(bench.tap(QStringLiteral("Save")) && bench.enterPin());
    QVERIFY(bench.until([&] { return phone->settings().address == QStringLiteral("127.0.0.1"); },
                        QStringLiteral("the address")));
    QVERIFY(bench.until([&] { return bench.ofType("PhoneAddressSheet").empty(); },
                        QStringLiteral("the settings")));
    QVERIFY(bench.says(QStringLiteral("127.0.0.1")));
    bench.shoot(QStringLiteral("phone-setting"));
}

void tst_PhoneSheet::overCode_offersANewOne()
{
    KioskBench bench(BenchHouse::Start::House);
    const Wheel wheel(bench.house());
    bench.show();
    serve(bench);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(openCode(bench));
    const QString address = bench.shell().phone()->address();
    bench.shell().phone()->end();
    QVERIFY(bench.untilSays(QStringLiteral("This code is over.")));
    bench.shoot(QStringLiteral("phone-over"));
    QVERIFY(bench.tap(QStringLiteral("A new code")));
    QVERIFY(bench.until([&] { return bench.shell().phone()->isOpen(); }, QStringLiteral("a code")));
    QVERIFY(bench.shell().phone()->address() != address);
    QCOMPARE(seen(address), 404);
    QCOMPARE(seen(bench.shell().phone()->address()), 200);
}

RAMPLIGHT_TEST(QGuiApplication, tst_PhoneSheet)
#include "tst_phonesheet.moc"
