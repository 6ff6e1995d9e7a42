// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "shippedcatalogue.h"

#include "domain/carwork.h"
#include "domain/catalogue.h"
#include "domain/cataloguechecks.h"
#include "support/testmain.h"

#include <QTest>

#include <algorithm>
#include <random>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// What one car may have open: an operation at a place.
struct Due
{
    QString id;
    bool hadFollowUp = false;
};

bool opensNothingMore(const OperationSpec& spec)
{
    return std::ranges::none_of(spec.readings, [](const ReadingSpec& reading) {
        return !reading.opens.isEmpty() ||
               std::ranges::any_of(reading.options, [](const ChoiceOption& option) {
                   return !option.closes && !option.opens.isEmpty();
               });
    });
}

std::vector<QString> followUpsOf(const OperationSpec& spec)
{
    std::vector<QString> ids;
    for (const ReadingSpec& reading : spec.readings) {
        if (!reading.opens.isEmpty())
            ids.push_back(reading.opens);
        for (const ChoiceOption& option : reading.options)
            if (!option.closes && !option.opens.isEmpty())
                ids.push_back(option.opens);
    }
    return ids;
}

/// Works through what is due in an order that chance picks among the legal ones; everything open
/// blocks by "after" and by what it forbids. Returns the order of closing; stuck is set when
/// something is due and nothing may start.
class Shop
{
public:
    Shop(const Catalogue& catalogue, CarFacts facts, unsigned seed, bool badReadings)
        : m_catalogue(catalogue)
        , m_facts(std::move(facts))
        , m_chance(seed)
        , m_badReadings(badReadings)
    {
    }

    void open(const QString& id)
    {
        const OperationSpec* spec = m_catalogue.find(id);
        if (spec == nullptr || !fits(spec->ifFact, m_facts) || isOpen(id))
            return;
        m_due.push_back({id, false});
    }

    void openBaseline()
    {
        for (const OperationSpec& spec : m_catalogue.operations)
            if (spec.baseline)
                open(spec.id);
    }

    QStringList work()
    {
        QStringList closed;
        while (!m_due.empty() && closed.size() < 500) {
            std::vector<std::size_t> legal;
            for (std::size_t i = 0; i < m_due.size(); ++i)
                if (mayStart(m_due.at(i)))
                    legal.push_back(i);
            if (legal.empty()) {
                stuck = true;
                return closed;
            }
            const std::size_t pick = legal.at(m_chance() % legal.size());
            const QString id = m_due.at(pick).id;
            const OperationSpec& spec = *m_catalogue.find(id);
            const std::vector<QString> followUps = followUpsOf(spec);
            if (m_badReadings && !m_due.at(pick).hadFollowUp && !followUps.empty() &&
                m_chance() % 2 == 0) {
                // It stays open until the follow-up is done, and is measured again.
                m_due.at(pick).hadFollowUp = true;
                const QString followUp = followUps.at(m_chance() % followUps.size());
                m_keptOpenBy[id] = followUp;
                open(followUp);
                continue;
            }
            m_due.erase(m_due.begin() + static_cast<std::ptrdiff_t>(pick));
            closed.append(id);
            for (const Trigger& trigger : spec.triggers)
                if (fits(trigger.ifFact, m_facts))
                    open(trigger.opens);
        }
        return closed;
    }

    bool stuck = false;

    [[nodiscard]] QString openNow() const
    {
        QStringList ids;
        for (const Due& due : m_due)
            ids.append(due.id);
        return ids.join(QStringLiteral(", "));
    }

private:
    [[nodiscard]] bool isOpen(const QString& id) const
    {
        return std::ranges::any_of(m_due, [&](const Due& due) { return due.id == id; });
    }

    [[nodiscard]] bool mayStart(const Due& wanted) const
    {
        if (const auto keeper = m_keptOpenBy.find(wanted.id);
            keeper != m_keptOpenBy.end() && isOpen(keeper->second))
            return false;
        const OperationSpec& spec = *m_catalogue.find(wanted.id);
        return std::ranges::none_of(m_due, [&](const Due& due) {
            if (due.id == wanted.id)
                return false;
            const OperationSpec& other = *m_catalogue.find(due.id);
            const bool forbids = std::ranges::any_of(other.immobilises, [&](const Immobilises& i) {
                // Started ones count as soon as they are open: the hardest case.
                return std::ranges::find_first_of(i.what, spec.needs) != i.what.end();
            });
            return forbids || spec.after.contains(due.id) ||
                   spec.after.contains(QStringLiteral("*"));
        });
    }

    const Catalogue& m_catalogue;
    CarFacts m_facts;
    std::mt19937 m_chance;
    bool m_badReadings;
    std::vector<Due> m_due;
    std::map<QString, QString> m_keptOpenBy;
};

} // namespace

class TestCatalogueOrder : public QObject
{
    Q_OBJECT

private:
    Catalogue m_shipped;

private slots:
    void initTestCase()
    {
        const CatalogueReading reading = readCatalogue(shippedBytes());
        QVERIFY2(reading.faults.isEmpty(), qPrintable(reading.faults.join(QLatin1Char('\n'))));
        m_shipped = reading.catalogue;
    }

    void shipped_chain_endsInALegalOrder_data()
    {
        QTest::addColumn<QStringList>("opened");
        QTest::addColumn<bool>("camera");
        QTest::addColumn<QStringList>("inOrder");
        QTest::newRow("four wheels refurbished")
            << QStringList{"wheels-off", "wheel-refurb"} << false
            << QStringList{"wheels-off",         "wheel-refurb", "wheel-true-check", "wheels-on",
                           "wheel-fixing-check", "road-test",    "wheel-recheck",    "full-valet",
                           "sale-photos",        "final-check"};
        QTest::newRow("a tyre replaced")
            << QStringList{"tyre-fit"} << false
            << QStringList{"tyre-fit",  "wheel-balance", "wheels-on",  "wheel-fixing-check",
                           "road-test", "wheel-recheck", "final-check"};
        QTest::newRow("a windscreen, with camera")
            << QStringList{"windscreen-fit"} << true
            << QStringList{"windscreen-fit", "camera-calibration", "recheck-scan", "full-valet",
                           "final-check"};
        QTest::newRow("a windscreen, without camera")
            << QStringList{"windscreen-fit"} << false
            << QStringList{"windscreen-fit", "wiper-replace", "road-test", "final-check"};
        QTest::newRow("a steering part")
            << QStringList{"steering-part"} << true
            << QStringList{"steering-part",      "wheels-on", "wheel-alignment",
                           "camera-calibration", "road-test", "wheel-recheck",
                           "final-check"};
        QTest::newRow("a steering part, its wheels")
            << QStringList{"steering-part"} << true
            << QStringList{"steering-part",      "wheels-on", "wheel-fixing-check",
                           "camera-calibration", "road-test", "wheel-recheck",
                           "final-check"};
        QTest::newRow("all at once")
            << QStringList{"wheels-off",    "wheel-refurb", "tyre-fit",     "windscreen-fit",
                           "steering-part", "brake-pads",   "bumper-paint", "panel-paint"}
            << true
            << QStringList{"wheel-refurb", "tyre-fit",      "wheels-on",  "wheel-fixing-check",
                           "road-test",    "wheel-recheck", "full-valet", "final-check"};
    }

    void shipped_chain_endsInALegalOrder()
    {
        QFETCH(QStringList, opened);
        QFETCH(bool, camera);
        QFETCH(QStringList, inOrder);
        CarFacts facts;
        facts.has = {Fact::CombustionEngine, Fact::ValveSensors};
        if (camera)
            facts.has.push_back(Fact::ScreenCamera);
        for (unsigned seed = 0; seed < 100; ++seed) {
            Shop shop(m_shipped, facts, seed, false);
            shop.openBaseline();
            for (const QString& id : opened)
                shop.open(id);
            const QStringList closed = shop.work();
            QVERIFY2(!shop.stuck, qPrintable(shop.openNow()));
            qsizetype last = -1;
            for (const QString& id : inOrder) {
                const qsizetype at = closed.lastIndexOf(id);
                QVERIFY2(at > last, qPrintable(id + QStringLiteral(" in ") +
                                               closed.join(QStringLiteral(", "))));
                last = at;
            }
            QCOMPARE(closed.contains("camera-calibration"), camera);
            QVERIFY(closed.contains("valve-sensor-check") == closed.contains("wheels-on"));
        }
    }

    void shipped_badReadings_neverLeaveACarStuck_data()
    {
        QTest::addColumn<bool>("everything");
        QTest::newRow("a plain car") << false;
        QTest::newRow("a car with every fact") << true;
    }

    void shipped_badReadings_neverLeaveACarStuck()
    {
        QFETCH(bool, everything);
        qsizetype most = 0;
        for (unsigned seed = 0; seed < 500; ++seed) {
            Shop shop(m_shipped, everything ? everyFact() : CarFacts{}, seed, true);
            shop.openBaseline();
            if (seed % 3 == 0)
                for (const char* id : {"wheels-off", "wheel-refurb", "windscreen-fit"})
                    shop.open(QString::fromLatin1(id));
            const QStringList closed = shop.work();
            QVERIFY2(!shop.stuck && closed.size() < 500, qPrintable(shop.openNow()));
            QCOMPARE(closed.last(), QStringLiteral("final-check"));
            most = std::max(most, closed.size());
        }
        // Bad readings did open follow-ups.
        QVERIFY(most > 20);
    }

    void shipped_readingsWithFollowUps_areThere()
    {
        const auto opens = [&](const char* id, const char* followUp) {
            return waitsFor(m_shipped, *m_shipped.find(id)).contains(QString::fromLatin1(followUp));
        };
        QVERIFY(opens("lift-inspection", "brake-pads"));
        QVERIFY(opens("lift-inspection", "brake-discs"));
        QVERIFY(opens("tyre-survey", "tyre-fit"));
        QVERIFY(opens("brake-pads", "brake-discs"));
        QVERIFY(opens("wheel-true-check", "wheel-replace"));
        QVERIFY(opens("wheel-recheck", "road-test"));
        for (const char* id :
             {"battery-service", "recall-and-certificate", "headlamp-aim", "camera-calibration"})
            QVERIFY2(opens(id, "put-right"), id);
        QVERIFY(!opens("road-test", "wheel-recheck"));
        QVERIFY(opensNothingMore(*m_shipped.find("wheels-on")));
    }

    // Whoever reads something that holds the car finds on the wall, or is told, what puts it right.
    void shipped_whatHoldsACar_opensSomethingOrSaysHowItIsRemedied()
    {
        QStringList nothing;
        int opening = 0;
        int remedied = 0;
        const auto look = [&](const QString& what, const QString& opens,
                              const std::optional<RemediedBy>& remedy) {
            if (opens.isEmpty() && !remedy)
                nothing.append(what);
            opening += opens.isEmpty() ? 0 : 1;
            remedied += remedy ? 1 : 0;
        };
        for (const OperationSpec& operation : m_shipped.operations) {
            if (!operation.safety)
                continue;
            for (const ReadingSpec& reading : operation.readings) {
                const QString what = operation.id + QLatin1Char(' ') + reading.key;
                if (reading.kind == ReadingKind::Limit)
                    look(what, reading.opens, reading.remediedBy);
                for (const ChoiceOption& option : reading.options)
                    if (!option.closes)
                        look(what + QLatin1Char(' ') + option.id, option.opens, option.remediedBy);
            }
        }
        QCOMPARE(nothing, QStringList());
        QVERIFY(opening > 70);
        QVERIFY(remedied > 30);
        // Where the work goes back, there is work that the check is about; where a finding is to be
        // recorded, the answer says so.
        for (const OperationSpec& operation : m_shipped.operations)
            for (const ReadingSpec& reading : operation.readings)
                for (const ChoiceOption& option : reading.options) {
                    if (option.remediedBy == RemediedBy::CheckedWork)
                        QVERIFY2(!operation.checksWorkOf.isEmpty() &&
                                     option.title.contains(QStringLiteral("back to the doer")),
                                 qPrintable(operation.id));
                    if (option.remediedBy == RemediedBy::Finding)
                        QVERIFY2(option.title.contains(QStringLiteral("record a finding")),
                                 qPrintable(operation.id));
                }
    }

    void shipped_wheelWork_holdsTheCar()
    {
        const auto restraint = [&](const char* id, RestraintFrom from, Restraint what) {
            return std::ranges::any_of(m_shipped.find(id)->immobilises, [&](const Immobilises& i) {
                return i.from == from && std::ranges::find(i.what, what) != i.what.end();
            });
        };
        QVERIFY(restraint("wheels-off", RestraintFrom::Started, Restraint::Move));
        QVERIFY(restraint("wheels-on", RestraintFrom::Opened, Restraint::Move));
        QVERIFY(restraint("wheels-on", RestraintFrom::Opened, Restraint::Drive));
        QVERIFY(restraint("wheel-fixing-check", RestraintFrom::Opened, Restraint::Drive));
        QVERIFY(!restraint("wheel-fixing-check", RestraintFrom::Opened, Restraint::Move));
        QVERIFY(m_shipped.find("wheel-recheck")->immobilises.empty());
        QVERIFY(restraint("windscreen-fit", RestraintFrom::Waiting, Restraint::Drive));
        QCOMPARE(m_shipped.find("windscreen-fit")->wait.reading, QStringLiteral("safe-drive-away"));
        QVERIFY(restraint("high-voltage-repair", RestraintFrom::Started, Restraint::Power));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestCatalogueOrder)
#include "tst_catalogueorder.moc"
