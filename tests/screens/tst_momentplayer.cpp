// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"
#include "recordings.h"

#include "kiosk/camerafeed.h"
#include "kiosk/momentplayer.h"
#include "support/testmain.h"

#include <QAudioDevice>
#include <QFile>
#include <QMediaDevices>
#include <QQmlComponent>
#include <QQmlContext>
#include <QQmlEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QSemaphore>
#include <QTest>
#include <QThreadPool>
#include <QVideoFrame>

using namespace ramplight;
using namespace ramplight::test;

/// A moment of a recording: what is seen of it, what comes of its picture, and what is said when it
/// cannot be played. Films are made here; every second of them has a colour of its own.
class tst_MomentPlayer : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase() { chooseMediaBackend(); }
    void init() { failOnQmlWarnings(); }
    void recordingFile_saysHowItsPictureStands_data();
    void recordingFile_saysHowItsPictureStands();
    void moment_isSeen_andItsPictureBecomesThePhotoBefore_data();
    void moment_isSeen_andItsPictureBecomesThePhotoBefore();
    void moment_endsOnItsLastPicture_andIsPlayedAgain();
    void filmHeldUpright_isSeenUpright();
    void sound_isPlayed_orSaidNotToBeHeard();
    void whatCannotBePlayed_isSaid_data();
    void whatCannotBePlayed_isSaid();
    void recordingThatVanishes_isSaid();
    void diskThatDoesNotAnswer_isSaid();
    void cameraFeed_drawsWhatComes();
};

namespace {

using State = MomentPlayer::State;

bool isSameFilmColour(QColor a, QColor b)
{
    constexpr int most = 14; // what JPEG and rounding leave of a plain colour
    return std::abs(a.red() - b.red()) <= most && std::abs(a.green() - b.green()) <= most &&
           std::abs(a.blue() - b.blue()) <= most;
}

/// The second of a film whose colour it is; -1: none.
int secondOf(QColor colour)
{
    for (int second = 0; second < 20; ++second)
        if (isSameFilmColour(colour, filmColour(second)))
            return second;
    return -1;
}

/// A sheet over the wall, and the player in it.
struct Sheet
{
    explicit Sheet(KioskBench& kiosk, int findingId = 0)
        : bench(kiosk)
    {
        QQmlComponent component(qmlEngine(bench.window()));
        component.setData("import QtQuick\n"
                          "import Ramplight.Kiosk\n"
                          "import Ramplight.Screens\n"
                          "HearItSheet {\n"
                          "    id: sheet\n"
                          "    property CarView car\n"
                          "    property int findingId\n"
                          "    onFrameTaken: image => car.attachFrame(image, findingId)\n"
                          "    Connections {\n"
                          "        target: sheet.car\n"
                          "        function onPhotoKept() { sheet.pictureKept() }\n"
                          "    }\n"
                          "}",
                          QUrl());
        item = qobject_cast<QQuickItem*>(component.createWithInitialProperties(
            {{QStringLiteral("car"), QVariant::fromValue(bench.shell().car())},
             {QStringLiteral("findingId"), findingId},
             {QStringLiteral("parent"), QVariant::fromValue(bench.window()->contentItem())}}));
        if (item == nullptr) {
            QTest::qFail(qPrintable(component.errorString()), __FILE__, __LINE__);
            return;
        }
        item->setParent(bench.window());
        player = item->findChild<MomentPlayer*>();
    }

    void play(const QString& path, double first, double last)
    {
        item->setProperty("recording", path);
        QMetaObject::invokeMethod(
            item, "play", Q_ARG(QString, QStringLiteral("Dent, near side front door")),
            Q_ARG(QString, QStringLiteral("and then there is a dent in the front door, just below "
                                          "the handle, about as wide as a hand")),
            Q_ARG(double, first), Q_ARG(double, last));
    }

    [[nodiscard]] bool reaches(State state) const
    {
        return bench.until([&] { return player->state() == state; },
                           QStringLiteral("state %1; it says: %2")
                               .arg(static_cast<int>(state))
                               .arg(player->words()));
    }

    /// What is drawn on the glass at a point of the picture, in shares of it.
    [[nodiscard]] QColor seenAt(double x, double y) const
    {
        const QSizeF fitted =
            QSizeF(player->proportion(), 1).scaled(player->size(), Qt::KeepAspectRatio);
        const QPointF corner((player->width() - fitted.width()) / 2,
                             (player->height() - fitted.height()) / 2);
        const QPointF point =
            player->mapToScene(corner + QPointF(fitted.width() * x, fitted.height() * y));
        return bench.window()->grabWindow().pixelColor(point.toPoint());
    }

    KioskBench& bench;
    QQuickItem* item = nullptr;
    MomentPlayer* player = nullptr;
};

struct Recording
{
    [[nodiscard]] QString path(const char* name) const
    {
        return folder.filePath(QLatin1String(name));
    }
    QTemporaryDir folder;
};

} // namespace

void tst_MomentPlayer::recordingFile_saysHowItsPictureStands_data()
{
    QTest::addColumn<int>("turns");
    for (int turns = 0; turns < 4; ++turns)
        QTest::addRow("%d", turns) << turns;
}

void tst_MomentPlayer::recordingFile_saysHowItsPictureStands()
{
    QFETCH(const int, turns);
    const Recording recording;
    const QString path = recording.path("walk.mov");
    QVERIFY(writeFilm(path, {.seconds = 1, .quarterTurns = turns, .sound = true}));
    const auto file = lookAtRecording(path);
    QVERIFY(file.has_value());
    QCOMPARE(file->quarterTurns, turns);
    QCOMPARE(file->bytes, QFileInfo(path).size());

    // Cut at any place it ends well.
    QFile whole(path);
    QVERIFY(whole.open(QIODevice::ReadOnly));
    const QByteArray bytes = whole.readAll();
    for (qsizetype length = 1; length < bytes.size(); length += 97) {
        QFile part(recording.path("part.mov"));
        QVERIFY(part.open(QIODevice::WriteOnly | QIODevice::Truncate));
        part.write(bytes.left(length));
        part.close();
        QVERIFY(lookAtRecording(part.fileName()).has_value());
    }
}

void tst_MomentPlayer::moment_isSeen_andItsPictureBecomesThePhotoBefore_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_MomentPlayer::moment_isSeen_andItsPictureBecomesThePhotoBefore()
{
    QFETCH(const QSize, size);
    const Recording recording;
    const QString path = recording.path("walk.mp4");
    QVERIFY(writeFilm(path, {.sound = true}));
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car =
        house.bringIn(QStringLiteral("K-7"), {finding("front-door-left", Condition::Dent)});
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.openCar(QStringLiteral("K-7")));
    const FindingId found = house.car(car).findings.begin()->first;
    Sheet sheet(bench, found.value);
    QVERIFY(sheet.player);

    sheet.play(path, 9, 12);
    QVERIFY(sheet.reaches(State::Playing));
    QVERIFY(sheet.player->hasPicture());
    QCOMPARE(sheet.player->begin(), 7.0);
    QCOMPARE(sheet.player->end(), 16.0);
    QVERIFY(bench.tap(QStringLiteral("Hold still")));
    QVERIFY(sheet.reaches(State::Resting));
    QVERIFY(sheet.player->position() >= 7 && sheet.player->position() <= 16);

    // A touch on the strip shows that second: it stands still, so it is the film's own picture.
    sheet.player->seek(11.5);
    QVERIFY(bench.until([&] { return secondOf(sheet.seenAt(0.5, 0.6)) == 11; },
                        QStringLiteral("the eleventh second")));
    QVERIFY(isSameFilmColour(sheet.seenAt(0.1, 0.1), Qt::white));
    bench.shoot(QStringLiteral("hear-it"));

    QVERIFY(bench.tap(QStringLiteral("Take as photo before")));
    QVERIFY(bench.until([&] { return house.car(car).photos.size() == 1; },
                        QStringLiteral("the photo")));
    const AttachedPhoto photo = house.car(car).photos.front();
    QCOMPARE(photo.finding, found);
    QCOMPARE(photo.place.text, QStringLiteral("front-door-left"));
    QCOMPARE(photo.moment, PhotoMoment::Before);
    const auto kept = house.photos().open(photo.photo);
    QVERIFY(kept.has_value());
    const QImage picture = QImage::fromData(*kept);
    QCOMPARE(picture.size(), QSize(320, 240));
    QCOMPARE(secondOf(picture.pixelColor(160, 160)), 11);
    QVERIFY(bench.untilSays(QStringLiteral("Kept as photo before")));
    bench.shoot(QStringLiteral("hear-it-taken"));

    QVERIFY(bench.tap(QStringLiteral("Close")));
    QCOMPARE(sheet.player->state(), State::Idle);
    QVERIFY(!sheet.player->live());
}

void tst_MomentPlayer::moment_endsOnItsLastPicture_andIsPlayedAgain()
{
    const Recording recording;
    const QString path = recording.path("walk.mp4");
    QVERIFY(writeFilm(path, {.seconds = 3}));
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    Sheet sheet(bench);
    // Its end lies beyond the film's.
    sheet.play(path, 2.5, 2.8);
    QVERIFY(sheet.reaches(State::Playing));
    QVERIFY(sheet.reaches(State::Resting));
    QCOMPARE(sheet.player->end(), 3.0);
    QVERIFY(sheet.player->live());
    QCOMPARE(secondOf(sheet.seenAt(0.5, 0.6)), 2);
    QVERIFY(bench.says(QStringLiteral("Played")));
    QVERIFY(bench.tap(QStringLiteral("Play again")));
    QVERIFY(sheet.reaches(State::Playing));
    QVERIFY(sheet.reaches(State::Resting));
    // A later touch at an earlier second shows that one.
    sheet.player->seek(1.5);
    QVERIFY(bench.until([&] { return secondOf(sheet.seenAt(0.5, 0.6)) == 1; },
                        QStringLiteral("the first second")));
}

void tst_MomentPlayer::filmHeldUpright_isSeenUpright()
{
    const Recording recording;
    const QString path = recording.path("walk.mp4");
    QVERIFY(writeFilm(path, {.quarterTurns = 1}));
    KioskBench bench(BenchHouse::Start::House);
    bench.show({1080, 1920});
    Sheet sheet(bench);
    sheet.play(path, 9, 12);
    QVERIFY(sheet.reaches(State::Playing));
    QCOMPARE(sheet.player->proportion(), 240.0 / 320.0);
    sheet.player->pause();
    // The corner that lay at the upper left is at the upper right.
    QVERIFY(bench.until([&] { return isSameFilmColour(sheet.seenAt(0.9, 0.1), Qt::white); },
                        QStringLiteral("the white corner")));
    QVERIFY(secondOf(sheet.seenAt(0.1, 0.1)) >= 0);
    QImage grabbed;
    connect(sheet.player, &FrameItem::grabbed, this, [&](const QImage& frame) { grabbed = frame; });
    sheet.player->grab();
    QCOMPARE(grabbed.size(), QSize(240, 320));
    bench.shoot(QStringLiteral("hear-it-upright"));
}

void tst_MomentPlayer::sound_isPlayed_orSaidNotToBeHeard()
{
    const Recording recording;
    const QString path = recording.path("walk.wav");
    QVERIFY(writeTone(path, 20));
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    Sheet sheet(bench);
    sheet.play(path, 9, 12);
    if (QMediaDevices::defaultAudioOutput().isNull()) {
        QVERIFY(bench.untilSays(QStringLiteral(
            "There is no loudspeaker at this kiosk, so the recording cannot be heard.")));
        QCOMPARE(sheet.player->state(), State::Fault);
    } else {
        QVERIFY(sheet.reaches(State::Playing));
        QVERIFY(bench.until([&] { return sheet.player->position() > 7; },
                            QStringLiteral("the sound to go on")));
        QVERIFY(sheet.player->position() <= 16);
    }
    QVERIFY(!sheet.player->hasPicture());
    QVERIFY(!bench.says(QStringLiteral("Take as photo before")));
    bench.shoot(QStringLiteral("hear-it-sound"));
}

void tst_MomentPlayer::whatCannotBePlayed_isSaid_data()
{
    QTest::addColumn<QString>("kind");
    QTest::addColumn<QString>("words");
    QTest::newRow("no path") << QString()
                             << "The recording is not here. Put it beside its transcript, under "
                                "the same name.";
    QTest::newRow("no file") << "missing"
                             << "The recording is not there any more. Was the stick pulled out?";
    QTest::newRow("empty") << "empty"
                           << "There is nothing in the recording's file. Copy it once more.";
    QTest::newRow("no media") << "text"
                              << "The recording cannot be played: its kind is not known here, or "
                                 "it is damaged.";
    QTest::newRow("too short") << "short"
                               << "The recording ends at 0:02, before this moment. Is it the right "
                                  "one, and whole?";
    QTest::newRow("noise in place of pictures")
        << "noise"
        << "Nothing of this moment can be seen or heard: the recording is damaged there.";
}

void tst_MomentPlayer::whatCannotBePlayed_isSaid()
{
    QFETCH(const QString, kind);
    QFETCH(const QString, words);
    const Recording recording;
    const QString path = kind.isEmpty() ? QString() : recording.path("walk.mp4");
    if (kind == QLatin1String("empty") || kind == QLatin1String("text")) {
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly));
        if (kind == QLatin1String("text"))
            file.write("This is a letter and no recording.\n");
    } else if (kind == QLatin1String("short")) {
        QVERIFY(writeFilm(path, {.seconds = 2}));
    } else if (kind == QLatin1String("noise")) {
        QVERIFY(writeFilm(path, {.seconds = 12, .spoilt = true}));
    }
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    Sheet sheet(bench);
    sheet.play(path, 9, 10);
    QVERIFY(bench.untilSays(words));
    QCOMPARE(sheet.player->state(), State::Fault);
    QVERIFY(!sheet.player->live());
    bench.shoot(QStringLiteral("hear-it-fault-%1").arg(kind));
}

void tst_MomentPlayer::recordingThatVanishes_isSaid()
{
    const Recording recording;
    const QString path = recording.path("walk.mp4");
    QVERIFY(writeFilm(path));
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    Sheet sheet(bench);
    sheet.play(path, 9, 12);
    QVERIFY(sheet.reaches(State::Playing));
    QVERIFY(QFile::remove(path));
    QVERIFY(bench.tap(QStringLiteral("Play again")));
    QVERIFY(bench.untilSays(
        QStringLiteral("The recording is not there any more. Was the stick pulled out?")));
    // Put back, it plays again.
    QVERIFY(writeFilm(path));
    QVERIFY(bench.tap(QStringLiteral("Play again")));
    QVERIFY(sheet.reaches(State::Playing));
}

void tst_MomentPlayer::diskThatDoesNotAnswer_isSaid()
{
    const Recording recording;
    const QString path = recording.path("walk.mp4");
    QVERIFY(writeFilm(path));
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    Sheet sheet(bench);
    // Whoever asks the disk waits, as for a share that hangs.
    QSemaphore answer;
    QThreadPool& pool = MomentPlayer::disks();
    const int threads = pool.maxThreadCount();
    pool.setMaxThreadCount(1);
    pool.start([&answer] { answer.acquire(); });
    sheet.player->setPatience(50);
    sheet.play(path, 9, 12);
    const bool said = bench.untilSays(
        QStringLiteral("The recording does not come. Look at its stick or share, then play it "
                       "again."));
    answer.release();
    pool.setMaxThreadCount(threads);
    QVERIFY(pool.waitForDone());
    QVERIFY(said);
    // What came too late changes nothing; asked again it plays.
    QCoreApplication::processEvents();
    QCOMPARE(sheet.player->state(), State::Fault);
    sheet.player->setPatience(60'000);
    QVERIFY(bench.tap(QStringLiteral("Play again")));
    QVERIFY(sheet.reaches(State::Playing));
}

void tst_MomentPlayer::cameraFeed_drawsWhatComes()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    CameraFeed feed(bench.window()->contentItem());
    feed.setSize({640, 480});
    const auto shown = [&](QColor colour) {
        QVideoFrame frame(QVideoFrameFormat(QSize(64, 48), QVideoFrameFormat::Format_BGRX8888));
        if (frame.map(QVideoFrame::WriteOnly)) {
            for (int y = 0; y < 48; ++y)
                for (int x = 0; x < 64; ++x)
                    reinterpret_cast<QRgb*>(frame.bits(0) + y * frame.bytesPerLine(0))[x] =
                        colour.rgb();
            frame.unmap();
        }
        feed.sink()->setVideoFrame(frame);
        return isSameFilmColour(bench.window()->grabWindow().pixelColor(320, 240), colour);
    };
    QVERIFY(!shown(Qt::darkYellow)); // nobody looks
    feed.setActive(true);
    QVERIFY(shown(Qt::darkCyan));
    QVERIFY(feed.live());
    QVERIFY(shown(Qt::darkMagenta));
    feed.setActive(false);
    QVERIFY(!feed.live());
}

RAMPLIGHT_TEST(QGuiApplication, tst_MomentPlayer)
#include "tst_momentplayer.moc"
