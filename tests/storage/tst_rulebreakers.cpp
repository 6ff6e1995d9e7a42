// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rulebreakers.h"
#include "storagebench.h"
#include "support/testmain.h"

#include <QRegularExpression>
#include <QSet>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

std::vector<RuleBreaker> allBreakers()
{
    std::vector<RuleBreaker> all;
    for (const auto& part : {siteBreakers(), carBreakers(), seenBreakers(), causeBreakers(),
                             workBreakers(), proofBreakers(), figureBreakers()})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

/// Refusals that no entry can break, and why.
const std::vector<std::pair<RefusalId, const char*>>& withoutEntry()
{
    static const std::vector<std::pair<RefusalId, const char*>> all{
        {RefusalId::PersonIsWorking, "another kiosk may have started the timer meanwhile"},
        {RefusalId::NameTaken, "names stand beside the ledger"},
        {RefusalId::CatalogueFaulty, "what a file's faults are changes with the program"},
        {RefusalId::PinNotFresh, "the ledger holds no PINs and not when they were entered"},
        {RefusalId::WordsTooLong, "earlier ledgers have longer ones"},
        {RefusalId::PaintAlike, "the finding may be made by eye as well"},
        {RefusalId::NotTogether, "of a request, each of whose entries is judged by itself"},
        {RefusalId::OneOfTogether, "of a request, each of whose entries is judged by itself"},
    };
    return all;
}

/// The bench's catalogue, and what it asks for as the least that every version did.
KnownCatalogues knownOf(const Catalogue& catalogue)
{
    LeastCatalogue least;
    least.safetyPlaces = catalogue.safetyPlaces;
    for (const OperationSpec& spec : catalogue.operations) {
        LeastAsked always{spec.id, spec.safety, spec.secondPerson, {}, spec.baseline, spec.ifFact};
        for (const ReadingSpec& reading : spec.readings)
            if (!reading.optional)
                always.readings.push_back({reading.key, reading.kind});
        least.operations.push_back(std::move(always));
    }
    return {catalogue, std::move(least)};
}

/// One that was written, and how it has to be named.
struct Written
{
    QString name;
    QString words;
    Forged forged;
    QString stream;  ///< of the car, or "site"
    qint64 seq = 0;  ///< of the first of its entries
    QString refused; ///< by the ledger itself: then it says nothing about the check
};

/// "car/car-1, entry 4" is of car/car-1, and of its entry 4; 0 where it is of the whole car.
bool isOf(const LedgerFault& fault, const QString& stream)
{
    return fault.where == stream || fault.where.startsWith(stream + QLatin1Char(','));
}

qint64 entryOf(const LedgerFault& fault)
{
    static const QRegularExpression number(QStringLiteral(", entry (\\d+)"));
    return number.match(fault.where).captured(1).toLongLong();
}

/// Everything that needs no house of its own, written to one: each to a car of its own.
class SharedHouse
{
public:
    SharedHouse()
        : m_hand(bench.ledger)
    {
        for (const RuleBreaker& breaker : allBreakers())
            if (breaker.guard == nullptr && !breaker.alone)
                write(QStringLiteral("%1: %2").arg(idText(breaker.id),
                                                   QString::fromUtf8(breaker.what)),
                      QString::fromUtf8(breaker.words), breaker.forge);
        for (const KindBreaker& breaker : kindBreakers())
            write(QString::fromUtf8(breaker.what), QString::fromUtf8(breaker.words), breaker.forge);
    }

    Workbench bench;
    std::vector<Written> written;

private:
    void write(const QString& name, const QString& words,
               const std::function<Forged(Workbench&)>& forge)
    {
        Written one{name, words, forge(bench), {}, 0, {}};
        const bool ofSite = !one.forged.site.empty();
        m_hand.by = one.forged.by;
        m_hand.now = std::max(bench.clock.now(), bench.car(one.forged.car).lastAt);
        one.stream = ofSite ? QStringLiteral("site") : carStream(one.forged.car);
        one.seq = 1 + (ofSite ? bench.ledger.site().value().seq : bench.car(one.forged.car).seq);
        const auto done =
            bench.ledger.append(ofSite ? m_hand.withSite(one.forged.site)
                                       : m_hand.with(one.forged.car, one.forged.events));
        if (!done)
            one.refused = done.error().words;
        written.push_back(std::move(one));
        // Nobody is on anything when the next one comes.
        bench.clock.pass(1);
        if (const auto stopped = bench.workshop.stopAllWork(bench.command()); !stopped)
            qWarning("%s: %s", qPrintable(name), qPrintable(ramplight::words(stopped.error())));
        bench.clock.pass(1);
    }

    Hand m_hand;
};

} // namespace

// Somebody has the database and the site's keys, and writes entries with true chains and seals that
// no command would have made. The check decides the rules again and names each.
class TestRuleBreakers : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase() { m_house = std::make_unique<SharedHouse>(); }

    void cleanupTestCase() { m_house.reset(); }

    void entryOfTheSharedHouse_isNamed_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<int>("index");
        forEachKind([&](const char* prefix, StoreKind kind) {
            for (std::size_t i = 0; i < m_house->written.size(); ++i)
                QTest::addRow("%s, %s", prefix, qPrintable(m_house->written[i].name))
                    << kind << static_cast<int>(i);
        });
    }

    void entryOfTheSharedHouse_isNamed()
    {
        QFETCH(StoreKind, kind);
        QFETCH(int, index);
        const Written& one = m_house->written.at(static_cast<std::size_t>(index));
        QCOMPARE(one.refused, QString());
        const VerifyReport& report = reportOf(kind);
        QStringList said;
        for (const LedgerFault& fault : report.faults)
            if (isOf(fault, one.stream) &&
                (one.stream != QLatin1String("site") || entryOf(fault) == one.seq))
                said.append(fault.told());
        QVERIFY2(said.join(QLatin1Char('\n')).contains(one.words),
                 qPrintable(one.words + QLatin1Char('\n') + said.join(QLatin1Char('\n'))));
    }

    // What was written in front of it, by commands, is in order.
    void entryInFrontOfAForgedOne_isNotBlamed_data() { addKinds(); }

    void entryInFrontOfAForgedOne_isNotBlamed()
    {
        QFETCH(StoreKind, kind);
        std::map<QString, qint64> forgedFrom;
        std::set<qint64> forgedAtSite;
        for (const Written& one : m_house->written) {
            forgedFrom[one.stream] = one.seq;
            if (one.stream == QLatin1String("site"))
                forgedAtSite.insert(one.seq);
        }
        QStringList wrong;
        for (const LedgerFault& fault : reportOf(kind).faults) {
            const QString stream = fault.where.section(QLatin1Char(','), 0, 0);
            const qint64 seq = entryOf(fault);
            const auto from = forgedFrom.find(stream);
            const bool isForged =
                stream == QLatin1String("site")
                    ? forgedAtSite.contains(seq)
                    : from != forgedFrom.end() && (seq == 0 || seq >= from->second);
            if (!isForged)
                wrong.append(fault.told());
        }
        QCOMPARE(wrong.join(QLatin1Char('\n')), QString());
    }

    void entryAloneInItsHouse_isNamed_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<int>("index");
        const std::vector<RuleBreaker> all = allBreakers();
        forEachKind([&](const char* prefix, StoreKind kind) {
            for (std::size_t i = 0; i < all.size(); ++i)
                if ((all[i].guard != nullptr || all[i].alone) &&
                    (!aPartIsEnough() || (i % 2 == 0) == (kind == StoreKind::Sqlite)))
                    QTest::addRow("%s, %s: %s", prefix, qPrintable(idText(all[i].id)), all[i].what)
                        << kind << static_cast<int>(i);
        });
    }

    void entryAloneInItsHouse_isNamed()
    {
        QFETCH(StoreKind, kind);
        QFETCH(int, index);
        const RuleBreaker breaker = allBreakers().at(static_cast<std::size_t>(index));
        Workbench bench;
        const Forged forged = breaker.forge(bench);
        TestDatabase database(kind);
        const auto store = database.open();
        QCOMPARE(outcome(replay(bench.ledger.accepted(), store->ledger())), QStringLiteral("ok"));
        QCOMPARE(told(Verifier(store->ledger(), {}, knownOf(bench.catalogue)).run()), QString());
        if (breaker.guard != nullptr)
            QCOMPARE(database.sql(QStringLiteral("DROP INDEX ") + breaker.guard), QString());
        Hand hand(store->ledger());
        hand.by = forged.by;
        hand.now = bench.clock.now();
        const Append append =
            forged.site.empty() ? hand.with(forged.car, forged.events) : hand.withSite(forged.site);
        QCOMPARE(outcome(store->ledger().append(append)), QStringLiteral("ok"));
        const QString report = told(Verifier(store->ledger(), {}, knownOf(bench.catalogue)).run());
        QVERIFY2(report.contains(QString::fromUtf8(breaker.words)), qPrintable(report));
        const QString where = forged.site.empty() ? forged.car.text : QStringLiteral("site, entry");
        QVERIFY2(report.contains(where), qPrintable(report));
        verifyChains(report);
    }

    // Nobody set the workshop up.
    void entryBeforeThereIsAWorkshop_isNamed_data() { addKinds(); }

    void entryBeforeThereIsAWorkshop_isNamed()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        Hand hand(store->ledger());
        QCOMPARE(outcome(store->ledger().append(hand.withSite({HouseRulesSet{}}))),
                 QStringLiteral("ok"));
        const QString report = told(Verifier(store->ledger()).run());
        QVERIFY2(report.contains("was written before there was a workshop"), qPrintable(report));
        verifyChains(report);
    }

    void refusals_allOfThem_haveARowOrAReason()
    {
        QSet<RefusalId> known{RefusalId::SiteNotSetUp};
        for (const RuleBreaker& breaker : allBreakers())
            known.insert(breaker.id);
        for (const auto& [id, why] : withoutEntry()) {
            QVERIFY2(!known.contains(id), qPrintable(idText(id)));
            known.insert(id);
        }
        QStringList missing;
        for (const RefusalId id : allRefusals())
            if (!known.contains(id))
                missing.append(idText(id));
        QCOMPARE(missing, QStringList());
    }

    // A new kind of event has a row, as by somebody without the right.
    void kinds_allOfThem_haveARow()
    {
        std::set<std::size_t> ofCars;
        std::set<std::size_t> ofSites;
        for (const KindBreaker& breaker : kindBreakers()) {
            (breaker.ofSite ? ofSites : ofCars).insert(breaker.kind);
            const auto written = std::ranges::find(m_house->written,
                                                   QString::fromUtf8(breaker.what), &Written::name);
            QVERIFY2(written != m_house->written.end(), breaker.what);
            const bool isOfKind =
                breaker.ofSite
                    ? std::ranges::any_of(
                          written->forged.site,
                          [&](const SiteEvent& e) { return e.index() == breaker.kind; })
                    : std::ranges::any_of(written->forged.events, [&](const CarEvent& e) {
                          return e.index() == breaker.kind;
                      });
            QVERIFY2(isOfKind, breaker.what);
        }
        QCOMPARE(ofCars.size(), CarEvent::kinds);
        QCOMPARE(ofSites.size(), SiteEvent::kinds);
    }

private:
    const VerifyReport& reportOf(StoreKind kind)
    {
        const auto known = m_reports.find(kind);
        if (known != m_reports.end())
            return known->second;
        TestDatabase database(kind);
        const auto store = database.open();
        const auto replayed = replay(m_house->bench.ledger.accepted(), store->ledger());
        VerifyReport report =
            Verifier(store->ledger(), {}, knownOf(m_house->bench.catalogue)).run();
        if (!replayed)
            report.faults.push_back({QStringLiteral("replay"), replayed.error().words});
        return m_reports.emplace(kind, std::move(report)).first->second;
    }

    static void verifyChains(const QString& report)
    {
        for (const char* chain : {"does not follow", "is not what was written", "seal", "heads"})
            QVERIFY2(!report.contains(QString::fromUtf8(chain)), qPrintable(report));
    }

    std::unique_ptr<SharedHouse> m_house;
    std::map<StoreKind, VerifyReport> m_reports;
};

RAMPLIGHT_TEST(QCoreApplication, TestRuleBreakers)
#include "tst_rulebreakers.moc"
