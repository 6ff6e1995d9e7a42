// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/transcript.h"
#include "support/testmain.h"
#include "walkhands.h"

#include <QQuickItem>
#include <QTest>

#include <fcntl.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <functional>

using namespace ramplight;
using namespace ramplight::test;

/// Spoken walk-rounds that wait: files in the drop folder and on sticks, and whose they are.
class tst_TranscriptsScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void nothingWaits_saysHowFilesComeHere_data() { sizes(); }
    void nothingWaits_saysHowFilesComeHere();
    void fileWithAStockNumber_isReadInOneTouch_data() { sizes(); }
    void fileWithAStockNumber_isReadInOneTouch();
    void carWithDrafts_isOnTopAndOnTheWall_data() { sizes(); }
    void carWithDrafts_isOnTopAndOnTheWall();
    void fileWithoutNumber_asksForTheCar_data() { sizes(); }
    void fileWithoutNumber_asksForTheCar();
    void fileThatIsNone_isNamedInWords_andStays();
    void readTwice_changesNothing();
    void whoMayNotAppraise_isRefusedInWords();
    void fileThatIsTooLarge_isNamedInWords_andStays();
    void everybodyGoesOnWorking_whileAFileIsRead_data();
    void everybodyGoesOnWorking_whileAFileIsRead();

private:
    /// From the wall to the screen.
    static bool open(KioskBench& bench, QSize size = {1920, 1080});
};

bool tst_TranscriptsScreen::open(KioskBench& bench, QSize size)
{
    bench.show(size);
    return bench.tap(QStringLiteral("Bring a car in")) &&
           bench.tap(QStringLiteral("Spoken walk-rounds")) &&
           bench.until(
               [&] {
                   return !bench.ofType("TranscriptsScreen").empty() &&
                          bench.shell().transcripts()->looked();
               },
               QStringLiteral("the transcripts"));
}

void tst_TranscriptsScreen::nothingWaits_saysHowFilesComeHere()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    QVERIFY(open(bench, size));
    QVERIFY(bench.untilSays(QStringLiteral("No spoken walk-round waits")));
    bench.shoot(QStringLiteral("transcripts-empty"));
    // A stick is plugged in.
    bench.house().putTranscript(QStringLiteral("walk.txt"), "The bonnet has a dent in it.\n", true);
    QVERIFY(bench.tap(QStringLiteral("Look again")));
    QVERIFY(bench.untilSays(QStringLiteral("walk.txt")));
}

void tst_TranscriptsScreen::fileWithAStockNumber_isReadInOneTouch()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    const Arrived car(bench);
    const CarId second = bench.house().bringIn(QStringLiteral("K-71"));
    BenchHouse& house = bench.house();
    house.putTranscript(QStringLiteral("K-7 walk.vtt"),
                        BenchHouse::spoken(QStringLiteral("K-7 walk.vtt")));
    house.putTranscript(QStringLiteral("K-7 walk.m4a"), "no sound");
    house.putTranscript(QStringLiteral("dictation.txt"), "The bonnet has a dent in it.\n", true);
    house.putTranscript(QStringLiteral("k71_again.vtt"),
                        "WEBVTT\n\n00:01.000 --> 00:03.000\nThe roof has a dent.\n\n"
                        "00:09.000 --> oops\nThe bonnet has a dent.\n");
    QVERIFY(open(bench, size));
    const auto& files = bench.shell().transcripts()->files()->rows();
    QCOMPARE(files.size(), std::size_t{3});
    const auto named = [&](const char* name) {
        return *std::ranges::find(files, QString::fromLatin1(name), &TranscriptRow::name);
    };
    QCOMPARE(named("K-7 walk.vtt").carId, car.id.text);
    QVERIFY(named("K-7 walk.vtt").aboutWords.contains(u"04:27 long"));
    QVERIFY(named("K-7 walk.vtt").aboutWords.contains(u"with its recording"));
    QCOMPARE(named("k71_again.vtt").carId, second.text);
    QVERIFY(!named("k71_again.vtt").damage.isEmpty());
    QCOMPARE(named("dictation.txt").carId, QString());
    QVERIFY(named("dictation.txt").aboutWords.contains(u"7 words"));
    bench.shoot(QStringLiteral("transcripts"));
    QVERIFY(bench.tap(QStringLiteral("K-7 walk.vtt")));
    QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.until([&] { return !bench.ofType("ReviewScreen").empty(); },
                        QStringLiteral("the review")));
    const CarState now = bench.house().car(car.id);
    QCOMPARE(now.spoken.size(), std::size_t{1});
    QVERIFY(now.openDrafts() >= 30);
}

void tst_TranscriptsScreen::carWithDrafts_isOnTopAndOnTheWall()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    const Arrived car(bench);
    bench.house().putTranscript(QStringLiteral("K-7 walk.vtt"),
                                BenchHouse::spoken(QStringLiteral("K-7 walk.vtt")));
    QVERIFY(bench.house()
                .desk()
                .readTranscript(bench.house().dropFolder() + QStringLiteral("/K-7 walk.vtt"),
                                car.id, bench.house().person(QStringLiteral("Odo")))
                .result()
                .has_value());
    const int drafts = bench.house().car(car.id).openDrafts();
    bench.show(size);
    const QString strip = QStringLiteral("Spoken walk-round of K-7: %1 to review").arg(drafts);
    QVERIFY(bench.untilSays(strip));
    bench.shoot(QStringLiteral("wall-spoken"));
    QVERIFY(bench.tap(strip));
    const QString card = QStringLiteral("%1 to review · Orrel Tarn 1.2").arg(drafts);
    QVERIFY(bench.untilSays(card));
    bench.shoot(QStringLiteral("transcripts-to-review"));
    QVERIFY(bench.tap(card));
    QVERIFY(
        bench.until([&] { return bench.shell().review()->ready(); }, QStringLiteral("the review")));
    // The car's own screen leads there, too.
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(bench.openCar(QStringLiteral("K-7")));
    bench.shoot(QStringLiteral("car-spoken"));
    QVERIFY(bench.tap(QStringLiteral("Review what was said: %1").arg(drafts)));
    QVERIFY(bench.until([&] { return !bench.ofType("ReviewScreen").empty(); },
                        QStringLiteral("the review")));
}

void tst_TranscriptsScreen::fileWithoutNumber_asksForTheCar()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    const Arrived car(bench);
    bench.house().fill(12);
    bench.house().putTranscript(QStringLiteral("New recording 12.txt"),
                                "The near side front wheel is kerbed, refurb it.\n");
    QVERIFY(open(bench, size));
    QVERIFY(bench.tap(QStringLiteral("New recording 12.txt")));
    QVERIFY(bench.untilSays(QStringLiteral("Which car is this of?")));
    bench.shoot(QStringLiteral("transcripts-whose"));
    auto* field =
        bench.ofType("Field", "placeholder", QStringLiteral("Stock number, registration, car"));
    QVERIFY(field != nullptr && bench.tap(field));
    QVERIFY(bench.type(QStringLiteral("417")));
    const QString whose = QStringLiteral("K-7 · QX 417 K");
    QVERIFY(bench.untilSays(whose));
    QCOMPARE(bench.shell().transcripts()->cars()->count(), 1);
    QVERIFY(bench.tap(whose));
    QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.until([&] { return bench.house().car(car.id).openDrafts() == 1; },
                        QStringLiteral("the draft")));
}

void tst_TranscriptsScreen::fileThatIsNone_isNamedInWords_andStays()
{
    KioskBench bench(BenchHouse::Start::House);
    const Arrived car(bench);
    bench.house().putTranscript(QStringLiteral("K-7 empty.vtt"), "WEBVTT\n\n");
    bench.house().putTranscript(QStringLiteral("K-7 picture.txt"),
                                QByteArray("\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0", 18));
    QVERIFY(open(bench));
    for (const TranscriptRow& row : bench.shell().transcripts()->files()->rows())
        QVERIFY2(!row.fault.isEmpty(), qPrintable(row.name));
    bench.shoot(QStringLiteral("transcripts-bad"));
    QVERIFY(bench.tap(QStringLiteral("K-7 picture.txt")));
    QVERIFY(bench.until([&] { return bench.shell().transcripts()->ask()->refused(); },
                        QStringLiteral("why")));
    QVERIFY(bench.shell().transcripts()->ask()->words().startsWith(u"K-7 picture.txt"));
    bench.shoot(QStringLiteral("transcripts-refused"));
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(QFile::exists(bench.house().dropFolder() + QStringLiteral("/K-7 picture.txt")));
    QVERIFY(bench.house().car(car.id).spoken.empty());
}

void tst_TranscriptsScreen::readTwice_changesNothing()
{
    KioskBench bench(BenchHouse::Start::House);
    const Arrived car(bench);
    bench.house().putTranscript(QStringLiteral("K-7.txt"), "The bonnet has a dent in it.\n");
    QVERIFY(open(bench));
    QVERIFY(bench.tap(QStringLiteral("K-7.txt")));
    QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.until([&] { return bench.shell().review()->ready(); }, QStringLiteral("it")));
    const qint64 before = bench.house().car(car.id).seq;
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.tap(QStringLiteral("K-7.txt")));
    QVERIFY(bench.until([&] { return !bench.ofType("ReviewScreen").empty(); },
                        QStringLiteral("the review")));
    QCOMPARE(bench.house().car(car.id).seq, before);
}

void tst_TranscriptsScreen::whoMayNotAppraise_isRefusedInWords()
{
    KioskBench bench(BenchHouse::Start::House);
    const Arrived car(bench);
    bench.house().putTranscript(QStringLiteral("K-7.txt"), "The bonnet has a dent in it.\n");
    QVERIFY(open(bench));
    QVERIFY(bench.tap(QStringLiteral("K-7.txt")));
    QVERIFY(bench.signIn(QStringLiteral("Ivo Kesteven")));
    QVERIFY(bench.until([&] { return bench.shell().transcripts()->ask()->refused(); },
                        QStringLiteral("the refusal")));
    QVERIFY(bench.house().car(car.id).spoken.empty());
}

void tst_TranscriptsScreen::fileThatIsTooLarge_isNamedInWords_andStays()
{
    KioskBench bench(BenchHouse::Start::House);
    const Arrived car(bench);
    const QByteArray said("The bonnet has a dent in it. ");
    bench.house().putTranscript(QStringLiteral("K-7 walk.txt"),
                                said.repeated(maxTranscriptBytes / said.size() + 1));
    QVERIFY(open(bench));
    const QString why = QStringLiteral("This file is too large for a transcript.");
    QVERIFY(bench.untilSays(why));
    const auto taken = bench.house().desk().readTranscript(
        bench.house().dropFolder() + QStringLiteral("/K-7 walk.txt"), car.id,
        bench.house().person(QStringLiteral("Odo")));
    QVERIFY(taken.result().error().startsWith(why));
    QVERIFY(bench.house().car(car.id).spoken.empty());
}

void tst_TranscriptsScreen::everybodyGoesOnWorking_whileAFileIsRead_data()
{
    QTest::addColumn<QString>("what");
    for (const char* what : {"transcript", "appraisal", "house"})
        QTest::newRow(what) << what;
}

// A stick may be slow: here it does not answer until it is told to.
void tst_TranscriptsScreen::everybodyGoesOnWorking_whileAFileIsRead()
{
    QFETCH(const QString, what);
    BenchHouse house(BenchHouse::Start::House);
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    const PersonId runa = house.person(QStringLiteral("Runa"));
    const CommandId request = newCommandId();
    auto entered = house.desk().tryPin(runa, Secret(BenchHouse::pin().toLatin1()), request);
    entered.waitForFinished();
    const QString path = house.folder(QStringLiteral("slow"));
    QCOMPARE(::mkfifo(QFile::encodeName(path).constData(), S_IRUSR | S_IWUSR), 0);
    const int stick = ::open(QFile::encodeName(path).constData(), O_RDWR | O_CLOEXEC);
    QVERIFY(stick >= 0);
    std::function<bool()> isRead;
    FaultyDesk& desk = house.desk();
    if (what == "transcript")
        isRead = [reading = desk.readTranscript(path, car, runa)] { return reading.isFinished(); };
    else if (what == "appraisal")
        isRead = [reading = desk.importAppraisal(path, runa)] { return reading.isFinished(); };
    else
        isRead = [reading = desk.importHouse(request, runa, path)] { return reading.isFinished(); };
    const auto answer = desk.site();
    const bool worksOn = QTest::qWaitFor([&] { return answer.isFinished(); });
    const bool wasRead = isRead();
    // The reader is there once it has taken the letter; then the file ends.
    const bool isWritten = ::write(stick, "x", 1) == 1;
    const bool isTaken = QTest::qWaitFor([stick] {
        int left = 0;
        return ::ioctl(stick, FIONREAD, &left) == 0 && left == 0;
    });
    ::close(stick);
    QVERIFY(worksOn && !wasRead);
    QVERIFY(isWritten && isTaken);
    QVERIFY(QTest::qWaitFor(isRead));
}

RAMPLIGHT_TEST(QGuiApplication, tst_TranscriptsScreen)
#include "tst_transcriptsscreen.moc"
