// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "managerhands.h"

#include "storage/storagebench.h"
#include "storage/wire.h"
#include "support/testmain.h"

#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// Another site of the group, as its own kiosks would have written it.
struct OtherSite
{
    const char* id;
    QString name;
    int cars;     ///< in prep, each held by safety
    int late = 0; ///< of them
    int ready = 0;
    int released = 0;
};

void add(const TestDatabase& database, const OtherSite& other)
{
    Workbench bench;
    for (int i = 0; i < other.released; ++i)
        bench.release(bench.appraised());
    for (int i = 0; i < other.ready; ++i)
        bench.closeAll(bench.appraised());
    for (int i = 0; i < other.cars; ++i) {
        const CarId car = bench.appraised();
        bench.found(car, "brakes-front", Condition::Worn);
        // The house's clock stands in May 2031.
        bench.must(bench.manager, car,
                   car::ChangePromise{i < other.late ? QDate(2031, 5, 2) : QDate(2031, 6, 2),
                                      QStringLiteral("agreed")});
    }
    std::vector<Append> story = bench.ledger.accepted();
    for (Append& append : story)
        if (append.site)
            for (SiteEvent& event : append.site->events)
                if (auto* setUp = std::get_if<SiteSetUp>(&event))
                    setUp->name = other.name;
    StoreSettings settings = database.settings();
    settings.site = {QString::fromLatin1(other.id)};
    const auto store = Store::open(settings, keeperWith());
    if (!store || !replay(story, (*store)->ledger()))
        qFatal("%s cannot be written", other.id);
}

/// A kiosk on a server that other sites share.
struct Group
{
    Group()
        : bench(BenchHouse::Start::House)
        , database(StoreKind::PostgreSql)
        , wire(database.settings().server)
    {
        bench.house().fill(7);
        StoreSettings kiosk = database.settings();
        kiosk.server = wire.address();
        kiosk.patience = kioskPatience;
        kiosk.standby = bench.house().folder(QStringLiteral("standby"));
        bench.house().moveToServer(database.settings(), kiosk);
        add(database, {"north", QStringLiteral("Harrowmere North"), 3, 2, 1, 1});
        add(database, {"quay", QStringLiteral("Tidewell Quay and Bodyshop, the former tram depot"),
                       12, 0, 2});
        add(database, {"small", QStringLiteral("Ansel Yard"), 0});
    }

    KioskBench bench;
    TestDatabase database;
    Wire wire;
};

QStringList names(const KioskBench& bench)
{
    QStringList all;
    for (const QQuickItem* line : bench.ofType("SiteLine"))
        all.append(line->property("name").toString());
    return all;
}

/// "3 in prep, 3 held by safety, 1 ready, 2 late"
QString counts(KioskBench& bench, const QString& name)
{
    const QQuickItem* line = bench.ofType("SiteLine", "name", name);
    if (line == nullptr)
        return {};
    const auto number = [line](const char* property) {
        return QString::number(line->property(property).toInt());
    };
    return QStringList{number("inPrep"), number("held"), number("ready"), number("late")}.join(
        QLatin1Char(' '));
}

} // namespace

/// The sites of a group on one server, as its manager sees them.
class tst_SitesScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }

    void manager_seesEverySite_data()
    {
        QTest::addColumn<QSize>("size");
        QTest::newRow("wide") << QSize(1920, 1080);
        QTest::newRow("tall") << QSize(1080, 1920);
    }

    void manager_seesEverySite()
    {
        QFETCH(const QSize, size);
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        Group group;
        KioskBench& bench = group.bench;
        bench.show(size);
        QVERIFY(bench.until([&] { return bench.house().desk().standing().shared; },
                            QStringLiteral("the server")));
        QVERIFY(goToSettings(bench, QStringLiteral("Runa Talbeck")));
        QVERIFY(bench.tap(QStringLiteral("Sites")));
        QVERIFY(bench.until([&] { return bench.ofType("SiteLine").size() == 4; },
                            QStringLiteral("the sites")));
        bench.shoot(QStringLiteral("sites"));
        const QStringList all = names(bench);
        QVERIFY(all.contains(bench.shell().siteName()));
        // The ready one is still here, and its promise of March is over, too.
        QCOMPARE(counts(bench, QStringLiteral("Harrowmere North")), QStringLiteral("4 3 1 3"));
        QCOMPARE(counts(bench, QStringLiteral("Ansel Yard")), QStringLiteral("0 0 0 0"));
        // The own site's are those of its wall.
        const WallModel& wall = *bench.shell().wall();
        QCOMPARE(counts(bench, bench.shell().siteName()), QStringLiteral("%1 %2 %3 %4")
                                                              .arg(wall.inPrep())
                                                              .arg(wall.heldBySafety())
                                                              .arg(wall.ready())
                                                              .arg(lateByPromise(bench)));
        QVERIFY(
            bench.ofType("SiteLine", "name", bench.shell().siteName())->property("own").toBool());

        // What another site's kiosk does is there at the next look.
        add(group.database, {"west", QStringLiteral("West Lock"), 1});
        QVERIFY(bench.tap(QStringLiteral("Look again")));
        QVERIFY(bench.until([&] { return names(bench).contains(QStringLiteral("West Lock")); },
                            QStringLiteral("the new site")));

        // Without the server nobody pretends to know.
        group.wire.cut();
        QVERIFY(bench.until([&] { return bench.house().desk().standing().away; },
                            QStringLiteral("the server away")));
        bench.shell().session()->touch();
        QVERIFY(bench.tap(QStringLiteral("Look again")));
        QVERIFY(bench.untilSays(QStringLiteral("The sites cannot be read now")));
        bench.shoot(QStringLiteral("sites-away"));
    }

    void technician_seesNone()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        Group group;
        KioskBench& bench = group.bench;
        bench.show();
        QVERIFY(bench.until([&] { return bench.house().desk().standing().shared; },
                            QStringLiteral("the server")));
        QVERIFY(goToSettings(bench, QStringLiteral("Bram Holloway")));
        QVERIFY(bench.tap(QStringLiteral("Sites")));
        QVERIFY(bench.untilSays(QStringLiteral("Only who may manage sees the other sites")));
        QVERIFY(bench.ofType("SiteLine").empty());
        QVERIFY(!bench.says(QStringLiteral("Look again")));
    }

    void houseInAFile_hasNoSuchSection()
    {
        KioskBench bench(BenchHouse::Start::House);
        bench.show();
        QVERIFY(goToSettings(bench, QStringLiteral("Runa Talbeck")));
        QVERIFY(bench.says(QStringLiteral("Backup")));
        QVERIFY(!bench.says(QStringLiteral("Sites")));
    }

private:
    /// The wall counts what the plan foresees as late, too.
    static int lateByPromise(KioskBench& bench)
    {
        int late = 0;
        const auto cards = bench.house().desk().openCards();
        if (!bench.until([&] { return cards.isFinished(); }, QStringLiteral("the cards")))
            return -1;
        const std::vector<CarCard> open = cards.result().value();
        for (const CarCard& card : open)
            late += card.promised.isValid() && card.promised < QDate(2031, 5, 8) ? 1 : 0;
        return late;
    }
};

RAMPLIGHT_TEST(QGuiApplication, tst_SitesScreen)
#include "tst_sitesscreen.moc"
