// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "refusalscenes.h"
#include "support/testmain.h"

#include <QSet>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

std::vector<RefusalScene> allScenes()
{
    std::vector<RefusalScene> all;
    for (const auto& part : {siteScenes(), carScenes(), workScenes(), proofScenes()})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

} // namespace

// Every refusal can be reached by a person at the wall, and says what is missing.
class TestRefusals : public QObject
{
    Q_OBJECT

private slots:
    void refusal_ofEveryKind_isReachedAndSaysWhy_data()
    {
        QTest::addColumn<int>("index");
        const std::vector<RefusalScene> all = allScenes();
        for (std::size_t i = 0; i < all.size(); ++i)
            QTest::newRow(qPrintable(idText(all[i].id))) << int(i);
    }

    void refusal_ofEveryKind_isReachedAndSaysWhy()
    {
        QFETCH(int, index);
        const RefusalScene row = allScenes().at(std::size_t(index));
        Workbench bench;
        QCOMPARE(row.play(bench), no(row.id));
        if (bench.lastRefusal().id != row.id)
            return; // decided on a bare state; its words are tested below
        const QString said = bench.lastWords();
        QVERIFY(!said.isEmpty());
        QVERIFY2(!said.contains('%'), qPrintable(said));
        QVERIFY2(!said.contains(": ."), qPrintable(said));
        QVERIFY2(said.endsWith('.') || row.id == RefusalId::CarHeld, qPrintable(said));
        QVERIFY2(!said.contains(".."), qPrintable(said));
    }

    void refusals_allOfThem_haveARow()
    {
        QSet<RefusalId> reached;
        for (const RefusalScene& row : allScenes())
            reached.insert(row.id);
        QStringList missing;
        for (const RefusalId id : allRefusals())
            if (!reached.contains(id))
                missing.append(idText(id));
        QCOMPARE(missing, QStringList());
    }

    void ids_allOfThem_areStableTextsAndDifferent()
    {
        QSet<QString> texts;
        for (const RefusalId id : allRefusals()) {
            QVERIFY(!idText(id).isEmpty());
            texts.insert(idText(id));
            QVERIFY(!words(Refusal{id, {"one", "two"}}).isEmpty());
            QVERIFY2(!words(Refusal{id, {"one", "two"}}).contains('%'), qPrintable(idText(id)));
        }
        QCOMPARE(texts.size(), qsizetype(allRefusals().size()));
        // Counted from 0 without a gap: none was forgotten in the list.
        QSet<int> values;
        for (const RefusalId id : allRefusals())
            values.insert(int(id));
        for (int i = 0; i < int(allRefusals().size()); ++i)
            QVERIFY(values.contains(i));
        QVERIFY(idText(RefusalId(allRefusals().size())).isEmpty());
    }

    void words_withASignOfPercent_areKept()
    {
        // What a person typed is no place holder.
        const QString said = words(Refusal{RefusalId::LimitMissing, {"water %2", "maker"}});
        QVERIFY2(said.contains("water %2"), qPrintable(said));
        QVERIFY2(said.contains("from the maker"), qPrintable(said));
    }

    void blockedOrSigned_askedForMore_saysWhatItWaitsFor_data()
    {
        QTest::addColumn<QString>("how");
        QTest::addColumn<QString>("said");
        QTest::newRow("part") << "part"
                              << "rod end";
        QTest::newRow("outside") << "outside"
                                 << "Cove Works";
        QTest::newRow("second signature") << "signed"
                                          << "second signature";
    }

    void blockedOrSigned_askedForMore_saysWhatItWaitsFor()
    {
        QFETCH(QString, how);
        QFETCH(QString, said);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        const car::BlockForPart part{op, {"rod end", "Harbour Parts", QDate(2031, 3, 22)}};
        if (how == "part") {
            bench.must(bench.mechanic, id, part);
        } else if (how == "outside") {
            bench.must(bench.mechanic, id, car::SendOut{op, cove()});
        } else {
            bench.start(id, op, bench.mechanic);
            bench.prove(id, op, bench.mechanic);
            bench.must(bench.mechanic, id, car::SignOff{op, {}});
        }
        QCOMPARE(bench.ask(bench.mechanic, id, part), no(RefusalId::Blocked));
        QVERIFY2(bench.lastWords().contains(said), qPrintable(bench.lastWords()));
        QCOMPARE(bench.ask(bench.mechanic, id, car::SendOut{op, cove()}), no(RefusalId::Blocked));
        QVERIFY2(bench.lastWords().contains(said), qPrintable(bench.lastWords()));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRefusals)
#include "tst_refusals.moc"
