// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rulebreakers.h"
#include "storagebench.h"
#include "support/testmain.h"

#include <QSet>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

std::vector<RuleBreaker> allBreakers()
{
    std::vector<RuleBreaker> all;
    for (const auto& part : {siteBreakers(), carBreakers(), workBreakers(), proofBreakers()})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

/// Refusals that no entry can break, and why.
const std::vector<std::pair<RefusalId, const char*>>& withoutEntry()
{
    static const std::vector<std::pair<RefusalId, const char*>> all{
        {RefusalId::SiteNotSetUp, "the first entry sets the workshop up"},
        {RefusalId::PersonIsWorking, "whoever leaves is stopped by the house at the shift's end"},
        {RefusalId::KindUnknown, "the catalogue is not in the ledger, what it opened is"},
        {RefusalId::CatalogueFaulty, "a faulty file can be taken in by no event"},
        {RefusalId::PinNotFresh, "the ledger holds no PINs and not when they were entered"},
        {RefusalId::PaintAlike, "the finding may be made by eye as well"},
        {RefusalId::NotACheck, "what it would write is a reopening"},
        {RefusalId::NotTogether, "of a request, each of whose entries is judged by itself"},
        {RefusalId::OneOfTogether, "of a request, each of whose entries is judged by itself"},
    };
    return all;
}

} // namespace

// Somebody has the database and the site's keys, and writes entries with true chains and seals that
// no command would have made. The check decides the rules again and names each.
class TestRuleBreakers : public QObject
{
    Q_OBJECT

private slots:
    void entryAgainstARule_isNamed_data()
    {
        QTest::addColumn<int>("index");
        const std::vector<RuleBreaker> all = allBreakers();
        for (std::size_t i = 0; i < all.size(); ++i)
            QTest::addRow("%s: %s", qPrintable(idText(all[i].id)), all[i].what)
                << static_cast<int>(i);
    }

    void entryAgainstARule_isNamed()
    {
        QFETCH(int, index);
        const RuleBreaker breaker = allBreakers().at(static_cast<std::size_t>(index));
        Workbench bench;
        const Forged forged = breaker.forge(bench);
        TestDatabase database(StoreKind::Sqlite);
        const auto store = database.open();
        QCOMPARE(outcome(replay(bench.ledger.accepted(), store->ledger())), QStringLiteral("ok"));
        QCOMPARE(told(Verifier(store->ledger()).run()), QString());
        if (breaker.guard != nullptr)
            QCOMPARE(database.sql(QStringLiteral("DROP INDEX ") + breaker.guard), QString());
        Hand hand(store->ledger());
        hand.by = forged.by;
        hand.now = bench.clock.now();
        const Append append =
            forged.site.empty() ? hand.with(forged.car, forged.events) : hand.withSite(forged.site);
        QCOMPARE(outcome(store->ledger().append(append)), QStringLiteral("ok"));
        const QString report = told(Verifier(store->ledger()).run());
        QVERIFY2(report.contains(QString::fromUtf8(breaker.words)), qPrintable(report));
        const QString where = forged.site.empty() ? forged.car.text : QStringLiteral("site, entry");
        QVERIFY2(report.contains(where), qPrintable(report));
        for (const char* chain : {"does not follow", "is not what was written", "seal", "heads"})
            QVERIFY2(!report.contains(QString::fromUtf8(chain)), qPrintable(report));
    }

    void refusals_allOfThem_haveARowOrAReason()
    {
        QSet<RefusalId> known;
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
};

RAMPLIGHT_TEST(QCoreApplication, TestRuleBreakers)
#include "tst_rulebreakers.moc"
