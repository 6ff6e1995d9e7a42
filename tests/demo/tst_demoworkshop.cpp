// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/commandline.h"
#include "cli/shipped.h"
#include "demo/democrew.h"
#include "demo/demopictures.h"
#include "domain/carcard.h"
#include "domain/holds.h"
#include "evidence/photostore.h"
#include "support/memoryledger.h"

#include <QFile>
#include <QMessageAuthenticationCode>
#include <QTemporaryDir>
#include <QTest>

#include <map>
#include <set>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr unsigned seed = 417;

Moment at(QDate date, QTime time)
{
    return {QDateTime(date, time, QTimeZone("Europe/London")).toMSecsSinceEpoch()};
}

PhotoId noPicture(const demo::CarEntry&, const PlaceId&, PhotoMoment moment, int number)
{
    return PhotoId{
        QStringLiteral("%1").arg(number * 8 + static_cast<int>(moment), 64, 16, QLatin1Char('0'))};
}

/// A play on a SQLite file, with pictures.
struct Played
{
    explicit Played(const Catalogue& catalogue, const demo::WorkshopFile& file, unsigned withSeed)
        : photos(folder.filePath(QStringLiteral("photos")))
    {
        StoreSettings settings;
        settings.file = folder.filePath(QStringLiteral("workshop.sqlite"));
        settings.site = SiteId{QStringLiteral("tarrowmere")};
        const HeadKeeper keeper{QStringLiteral("demo"), [](const QByteArray& bytes) {
                                    return QMessageAuthenticationCode::hash(
                                        bytes, "a key of the test", QCryptographicHash::Sha256);
                                }};
        store = std::move(*Store::open(settings, keeper));
        demo::Crew crew(store->ledger(), catalogue, file, demo::picturesInto(photos), withSeed);
        const auto done = crew.play(at({2031, 5, 8}, {13, 40}), [](double) {});
        if (!done)
            qFatal("%s", qPrintable(done.error()));
        for (const demo::CarEntry& entry : file.cars) {
            const CarId id{QStringLiteral("demo-%1").arg(entry.stock.toLower())};
            cars.push_back(*store->ledger().car(id));
            heads.append(store->ledger().head(id)->hash);
        }
    }

    QTemporaryDir folder;
    PhotoStore photos;
    std::unique_ptr<Store> store;
    std::vector<CarState> cars;
    QStringList heads;
};

} // namespace

// What a visitor of the demo workshop finds.
class TestDemoWorkshop : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        m_catalogue = *shippedCatalogue();
        QFile file(QStringLiteral(":/ramplight/demo/workshop.json"));
        QVERIFY(file.open(QIODevice::ReadOnly));
        const auto read = demo::readWorkshop(file.readAll());
        QVERIFY2(read, qPrintable(read ? QString() : read.error()));
        m_file = *read;
        m_played = std::make_unique<Played>(m_catalogue, m_file, seed);
    }

    void everybodyIsThere()
    {
        const SiteState site = *m_played->store->ledger().site();
        QVERIFY(site.demo);
        QCOMPARE(site.people.size(), std::size_t{9});
        QCOMPARE(site.bays.size(), std::size_t{6});
        QCOMPARE(m_played->cars.size(), std::size_t{24});
        for (const CarState& car : m_played->cars)
            QVERIFY2(car.exists(), qPrintable(car.id.text));
    }

    void carsAreInEveryState_data()
    {
        QTest::addColumn<CarStatus>("status");
        // None is in preparation without being held by safety: the final check is a safety item,
        // and whatever is open before it opens it again.
        for (const auto& [status, name] : Names<CarStatus>::table)
            if (status != CarStatus::InPrep)
                QTest::newRow(name) << status;
    }

    void carsAreInEveryState()
    {
        QFETCH(CarStatus, status);
        const HouseRules rules = m_played->store->ledger().site()->rules;
        QVERIFY(std::ranges::any_of(m_played->cars, [&](const CarState& car) {
            return statusOf(car, rules, at({2031, 5, 8}, {13, 40})) == status;
        }));
    }

    // "Held" alone would be every car with open work; the wall counts those that carry the hatch.
    void heldBySafety_areSomeOfThemOnly()
    {
        const HouseRules rules = m_played->store->ledger().site()->rules;
        const Moment now = at({2031, 5, 8}, {13, 40});
        int held = 0;
        int hatched = 0;
        for (const CarState& car : m_played->cars) {
            const CarCard card = cardOf(car, rules);
            held += card.statusAt(now) == CarStatus::Held ? 1 : 0;
            hatched += card.isHeldBySafety(now) ? 1 : 0;
        }
        QVERIFY2(hatched > 0 && hatched < held,
                 qPrintable(QStringLiteral("%1 of %2").arg(hatched).arg(held)));
    }

    void history_liesOnEveryWorkingDayOfAWeek()
    {
        const QTimeZone zone("Europe/London");
        std::map<QDate, std::set<PersonId>> days;
        for (const CarState& car : m_played->cars) {
            const auto history = m_played->store->ledger().history(car.id);
            QVERIFY(history);
            for (const CarEnvelope& entry : *history)
                days[QDateTime::fromMSecsSinceEpoch(entry.at.ms, zone).date()].insert(entry.by);
        }
        // From Thursday to Thursday, not at the weekend.
        std::vector<QDate> worked;
        for (QDate day(2031, 5, 1); day <= QDate(2031, 5, 8); day = day.addDays(1))
            if (day.dayOfWeek() < 6)
                worked.push_back(day);
        QCOMPARE(days.size(), worked.size());
        for (const QDate& day : worked)
            QVERIFY2(days[day].size() > 3, qPrintable(day.toString(Qt::ISODate)));
    }

    void operationsAreInEveryState_data()
    {
        QTest::addColumn<OperationState>("state");
        for (const auto& [state, name] : Names<OperationState>::table)
            QTest::newRow(name) << state;
    }

    void operationsAreInEveryState()
    {
        QFETCH(OperationState, state);
        QVERIFY(std::ranges::any_of(m_played->cars, [&](const CarState& car) {
            return std::ranges::any_of(
                car.operations, [&](const auto& entry) { return entry.second.state == state; });
        }));
    }

    void itsLedgerVerifies()
    {
        const VerifyReport report =
            Verifier(m_played->store->ledger(), photoCheck(m_played->photos)).run();
        for (const LedgerFault& fault : report.faults)
            qWarning("%s: %s", qPrintable(fault.where), qPrintable(fault.words));
        QVERIFY(report.isWhole());
        QVERIFY(report.photos > 0);
        QCOMPARE(report.notChecked, QStringList());
        QCOMPARE(report.remarks, QStringList());
    }

    void sameSeed_givesTheSameHeads()
    {
        const Played again(m_catalogue, m_file, seed);
        QCOMPARE(again.heads, m_played->heads);
        QVERIFY(!again.heads.contains(QString()));
    }

    void otherSeed_givesOtherHeads()
    {
        const Played other(m_catalogue, m_file, seed + 1);
        QVERIFY(other.heads != m_played->heads);
    }

    // Whoever looks at it when: it plays through, and no car is released with open safety work.
    void atAnyTime_itPlaysThrough_data()
    {
        QTest::addColumn<QDate>("date");
        QTest::addColumn<QTime>("time");
        QTest::newRow("Monday before work") << QDate(2031, 5, 5) << QTime(6, 10);
        QTest::newRow("Friday evening") << QDate(2031, 5, 9) << QTime(21, 0);
        QTest::newRow("Sunday") << QDate(2031, 5, 11) << QTime(11, 0);
        QTest::newRow("midnight") << QDate(2031, 5, 7) << QTime(0, 0);
        QTest::newRow("after the clocks went on") << QDate(2031, 3, 31) << QTime(9, 30);
        QTest::newRow("leap day") << QDate(2032, 2, 29) << QTime(9, 30);
        QTest::newRow("New Year") << QDate(2032, 1, 1) << QTime(9, 30);
    }

    void atAnyTime_itPlaysThrough()
    {
        QFETCH(QDate, date);
        QFETCH(QTime, time);
        MemoryLedger ledger;
        demo::Crew crew(ledger, m_catalogue, m_file, noPicture, seed);
        double progress = 0;
        const auto played = crew.play(at(date, time), [&](double share) { progress = share; });
        QVERIFY2(played, qPrintable(played ? QString() : played.error()));
        QCOMPARE(progress, 1.0);
        QVERIFY(ledger.cars().size() > 15);
        for (const auto& [id, car] : ledger.cars()) {
            QVERIFY(car.lastAt <= at(date, time));
            for (const auto& [operation, details] : car.operations)
                QVERIFY2(!car.released || !details.isOpen() || !details.spec->safety,
                         qPrintable(id.text));
        }
    }

private:
    Catalogue m_catalogue;
    demo::WorkshopFile m_file;
    std::unique_ptr<Played> m_played;
};

QTEST_MAIN(TestDemoWorkshop)
#include "tst_demoworkshop.moc"
