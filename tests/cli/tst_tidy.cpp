// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/commandline.h"
#include "domain/retention.h"
#include "evidence/photostore.h"
#include "support/folders.h"
#include "support/memoryledger.h"
#include "support/scratchdatabase.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QFileInfo>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr qint64 yearMs = 366LL * 24 * 60 * 60 * 1000;

struct Ran
{
    int code = -1;
    QString out;
    QString err;
};

QStringList photoFiles(const QString& home)
{
    QStringList files;
    QDirIterator all(home + QStringLiteral("/photos"), {QStringLiteral("*.jpg")}, QDir::Files,
                     QDirIterator::Subdirectories);
    while (all.hasNext())
        files.append(all.next());
    files.sort();
    return files;
}

} // namespace

// Photos of the demo workshop, years later. The sub-commands run in this process, under a clock of
// the test's.
class TestTidy : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        m_home = m_folder.filePath(QStringLiteral("demo"));
        m_clock.set(SystemClock().now());
        QCOMPARE(run({"demo"}).code, 0);
        m_template = m_home;
    }

    void init()
    {
        m_clock.set(SystemClock().now());
        m_home = m_folder.filePath(QString::fromLatin1(QTest::currentTestFunction()));
        QVERIFY(copyFolder(m_template, m_home));
    }

    void cleanup() { QDir(m_home).removeRecursively(); }

    void asShipped_nothingGoes()
    {
        later(90);
        const QStringList before = photoFiles(m_home);
        QVERIFY(!before.isEmpty());
        const Ran dry = run({"tidy"});
        QCOMPARE(dry.code, 0);
        QVERIFY2(dry.out.contains("keeps photos for good"), qPrintable(dry.out));
        const Ran done = run({"tidy", "--do", "--as", "Runa Talbeck"});
        QCOMPARE(done.code, 0);
        QVERIFY2(done.out.contains("\n0 photos removed for good."), qPrintable(done.out));
        QCOMPARE(photoFiles(m_home), before);
    }

    void dry_changesNothing()
    {
        setYears(6);
        later(8);
        const QStringList before = photoFiles(m_home);
        const Ran first = run({"tidy"});
        QCOMPARE(first.code, 0);
        QVERIFY2(first.out.contains("keeps photos for 6 years"), qPrintable(first.out));
        QVERIFY2(first.out.contains("out of prep since 20"), qPrintable(first.out));
        QVERIFY2(first.out.contains("Nothing was changed."), qPrintable(first.out));
        QCOMPARE(photoFiles(m_home), before);
        QCOMPARE(run({"tidy"}).out, first.out);
    }

    void done_removesAndIsOnRecord()
    {
        setYears(6);
        later(8);
        const std::set<PhotoId> prep = keptInPrep();
        QVERIFY(!prep.empty());
        const std::size_t before = countPhotos();
        const Ran done = run({"tidy", "--do", "--as", "Runa Talbeck"});
        QVERIFY2(done.code == 0, qPrintable(done.err));
        const std::size_t after = countPhotos();
        QVERIFY(after < before);
        QVERIFY2(
            done.out.contains(QStringLiteral("\n%1 photos removed for good.").arg(before - after)),
            qPrintable(done.out));
        // Those of cars in prep are all there, and nothing else is.
        QCOMPARE(after, prep.size());
        const Ran verified = run({"verify"});
        QVERIFY2(verified.code == 0, qPrintable(verified.out));
        QVERIFY2(verified.out.contains(
                     QStringLiteral("(%1 removed as the house rules ask)").arg(before - after)),
                 qPrintable(verified.out));
        QVERIFY(!verified.out.contains("Remark"));
        // By whom, and no second time.
        const auto house = open();
        int entries = 0;
        for (const CarId& car : carsOf(*house)) {
            const auto history = house->store().ledger().history(car);
            QVERIFY(history);
            for (const CarEnvelope& entry : *history)
                if (std::holds_alternative<PhotosRemoved>(entry.event)) {
                    QVERIFY(house->store().ledger().site()->person(entry.by)->can(Right::Manage));
                    ++entries;
                }
        }
        QVERIFY(entries > 0);
        QVERIFY(run({"tidy"}).out.contains("0 photos of 0 cars may go."));
    }

    void break_betweenLedgerAndBytes_isMendedByTheNext()
    {
        setYears(6);
        later(8);
        const std::size_t before = countPhotos();
        {
            const auto house = open();
            const PersonId manager =
                actor(house->store().ledger().site().value(), QStringLiteral("Runa Talbeck"));
            for (const CarId& car : carsOf(*house))
                if (!photosDue(house->store().ledger().car(car).value(),
                               house->store().ledger().site()->rules, m_clock.now())
                         .empty())
                    QVERIFY(house->workshop().run(CarRequest{
                        cli::freshCommand(), manager, car, {car::RemovePhotos{}}, false}));
        }
        QCOMPARE(countPhotos(), before);
        const Ran verified = run({"verify"});
        QCOMPARE(verified.code, 0);
        QVERIFY2(verified.out.contains("its bytes are still here"), qPrintable(verified.out));
        QVERIFY(run({"tidy"}).out.contains("that no car needs may go, too"));
        QCOMPARE(run({"tidy", "--do", "--as", "Runa Talbeck"}).code, 0);
        QVERIFY(countPhotos() < before);
        QVERIFY(!run({"verify"}).out.contains("Remark"));
    }

    void orphans_areToldAndGoOnceTheyAreOld()
    {
        QImage picture(64, 48, QImage::Format_RGB32);
        picture.fill(Qt::darkYellow);
        const auto stray = PhotoStore(m_home + QStringLiteral("/photos")).keep(picture);
        QVERIFY(stray);
        const QString told =
            QStringLiteral("Remark: photo %1: no entry names it").arg(stray->id.text);
        const Ran verified = run({"verify"});
        QCOMPARE(verified.code, 0);
        QVERIFY2(verified.out.contains(told), qPrintable(verified.out));
        const Ran early = run({"tidy", "--do", "--as", "Runa Talbeck"});
        QVERIFY2(early.out.contains("1 photo that no car needs stay"), qPrintable(early.out));
        QVERIFY(run({"verify"}).out.contains(told));
        later(1);
        QVERIFY(run({"tidy", "--do", "--as", "Runa Talbeck"})
                    .out.contains("\n1 photo removed for good."));
        QVERIFY(!run({"verify"}).out.contains(told));
    }

    void missing_isAFault()
    {
        const QStringList files = photoFiles(m_home);
        const auto whole = std::ranges::find_if(files, [](const QString& file) {
            return QFileInfo(file).fileName().count(QLatin1Char('.')) == 1;
        });
        QVERIFY(whole != files.end());
        QVERIFY(QFile::remove(*whole));
        const Ran verified = run({"verify"});
        QCOMPARE(verified.code, 1);
        QVERIFY2(verified.out.contains("it is missing, and nobody removed it"),
                 qPrintable(verified.out));
    }

    void inAFilesDatabase_isRefused()
    {
        QFile settings(m_home + QStringLiteral("/settings.ini"));
        QVERIFY(settings.open(QIODevice::WriteOnly | QIODevice::Append));
        settings.write("[storage]\nphotos=database\n");
        settings.close();
        const Ran refused = run({"verify"});
        QVERIFY(refused.code != 0);
        QVERIFY2(refused.err.contains("only where it is on a server"), qPrintable(refused.err));
    }

    void onAServer_allTheSame()
    {
        const QString server = qEnvironmentVariable("RAMPLIGHT_TEST_PG");
        if (server.isEmpty())
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        const ScratchDatabase scratch(server);
        QVERIFY(scratch.isThere());
        const QString folder = m_home + QStringLiteral("/photos");
        const std::size_t count = PhotoStore(folder).list()->size();
        const Ran moved = run({"migrate-store", "--to-server", scratch.address()});
        QVERIFY2(moved.code == 0, qPrintable(moved.err));
        QVERIFY2(moved.out.contains("ramplight photos take " + folder), qPrintable(moved.out));
        QVERIFY2(run({"verify"}).code == 0, qPrintable(run({"verify"}).out));
        // In the database there is nothing yet.
        {
            QSettings settings(m_home + QStringLiteral("/settings.ini"), QSettings::IniFormat);
            settings.setValue(QStringLiteral("storage/photos"), QStringLiteral("database"));
        }
        const Ran before = run({"verify"});
        QCOMPARE(before.code, 1);
        QVERIFY(before.out.contains("it is missing"));
        const Ran taken = run({"photos", "take", folder});
        QVERIFY2(taken.code == 0, qPrintable(taken.err));
        QVERIFY2(taken.out.startsWith(QStringLiteral("%1 photos taken over").arg(count)),
                 qPrintable(taken.out));
        QVERIFY(QDir(folder).removeRecursively());
        QVERIFY2(run({"verify"}).code == 0, qPrintable(run({"verify"}).out));
        setYears(6);
        later(8);
        QCOMPARE(run({"tidy", "--do", "--as", "Runa Talbeck"}).code, 0);
        const Ran verified = run({"verify"});
        QVERIFY2(verified.code == 0, qPrintable(verified.out));
        QVERIFY(verified.out.contains("removed as the house rules ask"));
        QVERIFY(!verified.out.contains("Remark"));
        // A backup has what is left of them; so has the folder again.
        const std::size_t left = countPhotos();
        QVERIFY(left > 0 && left < count);
        const QString backups = m_folder.filePath(QStringLiteral("backups"));
        const Ran kept = run({"backup", "--to", backups});
        QVERIFY2(kept.code == 0, qPrintable(kept.err));
        QCOMPARE(PhotoStore(backups + QStringLiteral("/photos")).list()->size(), left);
        const Ran back = run({"migrate-store", "--to-file"});
        QVERIFY2(back.code == 0, qPrintable(back.err));
        QVERIFY2(back.out.contains(QStringLiteral("%1 photos brought into").arg(left)),
                 qPrintable(back.out));
        QCOMPARE(PhotoStore(folder).list()->size(), left);
        const Ran whole = run({"verify"});
        QVERIFY2(whole.code == 0, qPrintable(whole.out));
        QVERIFY(!whole.out.contains("Remark"));
    }

    void wrongCalls_data()
    {
        QTest::addColumn<QStringList>("arguments");
        QTest::addColumn<int>("code");
        QTest::addColumn<QString>("err");
        QTest::newRow("too much") << QStringList{"tidy", "everything"} << 64
                                  << "Usage: ramplight tidy";
        QTest::newRow("without the right") << QStringList{"tidy", "--do", "--as", "Bram Holloway"}
                                           << 77 << "has no right to this.";
        QTest::newRow("photos, nothing")
            << QStringList{"photos"} << 64 << "Usage: ramplight photos";
        QTest::newRow("photos, no folder")
            << QStringList{"photos", "take", "/no/such"} << 66 << "The folder is not there.";
    }

    void wrongCalls()
    {
        QFETCH(QStringList, arguments);
        QFETCH(int, code);
        QFETCH(QString, err);
        const Ran ran = run(arguments);
        QCOMPARE(ran.code, code);
        QVERIFY2(ran.err.contains(err), qPrintable(ran.err));
    }

private:
    Ran run(const QStringList& arguments)
    {
        Ran ran;
        QTextStream out(&ran.out);
        QTextStream err(&ran.err);
        cli::Terminal terminal{out, err, [](const QString&) { return QString(); },
                               HousePaths(m_home), m_clock};
        ran.code = cli::find(arguments.first())->run(arguments.mid(1), terminal);
        return ran;
    }

    [[nodiscard]] std::unique_ptr<OpenHouse> open() const
    {
        auto house = OpenHouse::open(HousePaths(m_home), m_clock, false);
        return house ? std::move(*house) : nullptr;
    }

    static PersonId actor(const SiteState& site, const QString& name)
    {
        return cli::actor(site, name, Right::Manage).value();
    }

    void setYears(int years)
    {
        const auto house = open();
        QVERIFY(house);
        const SiteState site = house->store().ledger().site().value();
        HouseRules rules = site.rules;
        rules.photoYears = years;
        QVERIFY(house->workshop().run(SiteRequest{cli::freshCommand(),
                                                  actor(site, QStringLiteral("Runa Talbeck")),
                                                  site::SetHouseRules{rules},
                                                  {}}));
    }

    void later(int years) { m_clock.set(Moment{m_clock.now().ms + years * yearMs}); }

    [[nodiscard]] std::size_t countPhotos() const { return open()->photos().list()->size(); }

    static std::vector<CarId> carsOf(OpenHouse& house)
    {
        std::vector<CarId> cars;
        const auto all =
            carsInReadTables(house.store().ledger().connection(), house.store().ledger().siteId());
        for (const QString& car : *all)
            cars.push_back(CarId{car});
        return cars;
    }

    [[nodiscard]] std::set<PhotoId> keptInPrep() const
    {
        std::set<PhotoId> kept;
        const auto house = open();
        for (const CarId& id : carsOf(*house)) {
            const CarState car = house->store().ledger().car(id).value();
            if (outOfPrepAt(car).isNull())
                for (const auto& [photo, fate] : car.photoFates)
                    kept.insert(photo);
        }
        return kept;
    }

    QTemporaryDir m_folder;
    QString m_template;
    QString m_home;
    StillClock m_clock;
};

QTEST_MAIN(TestTidy)
#include "tst_tidy.moc"
