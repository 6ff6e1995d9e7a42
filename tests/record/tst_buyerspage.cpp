// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "pagetext.h"
#include "recordbench.h"

#include "domain/carcommands.h"
#include "record/recordlayout.h"
#include "record/recordwords.h"
#include "support/testmain.h"

#include <QRegularExpression>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

// The first page of a record, which is the buyer's.
class TestBuyersPage : public QObject
{
    Q_OBJECT

private slots:
    void saysWhatWasFoundDoneAndLeft_andWhoSigned()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        bench.release(id);
        const auto pages = paper::layOut(bench.record(id));
        const QString first = textOf(pages.front());
        for (const char* said :
             {"What was found, and what became of it", "Left as it is", "Dealt with", "Also done",
              "Safety items", "tyre", "Joss", "Fingerprint"})
            QVERIFY2(first.contains(QString::fromUtf8(said)), qPrintable(first));
        QVERIFY2(first.indexOf(QStringLiteral("Left as it is")) <
                     first.indexOf(QStringLiteral("Dealt with")),
                 "what is still there comes first");
        // The workshop's own pages begin on the next one.
        QVERIFY(
            textOf(pages.at(1)).contains(QStringLiteral("From here on: all that the workshop")));
        QVERIFY(!first.contains(QStringLiteral("What was done")));
    }

    void saysWhatTheBuyerIsToDo_onceAndOnlyOfWhatWasDone()
    {
        RecordBench bench;
        const QString words = QStringLiteral("Have it looked at after 50 km.");
        bench.spec("tyre-fit").advice = {words};
        bench.spec("wheel-refurb").advice = {words};
        const QString touchedIn = QStringLiteral("Keep wax off it for a month.");
        bench.spec("touch-in").advice = {touchedIn};
        const QString first = textOf(paper::layOut(bench.record(bench.worked())).front());
        QVERIFY2(first.contains(QStringLiteral("For you to do")), qPrintable(first));
        QCOMPARE(first.count(words), 1);
        // The chips were left as they are.
        QVERIFY2(!first.contains(touchedIn), qPrintable(first));
    }

    void ofManyFindings_isOnePageAndSaysHowManyMore()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.battered());
        const auto pages = paper::layOut(record);
        const QString first = textOf(pages.front());
        static const QRegularExpression more(QStringLiteral("and (\\d+) more; the whole list"));
        const QRegularExpressionMatch match = more.match(first);
        QVERIFY2(match.hasMatch(), qPrintable(first));
        QVERIFY(match.captured(1).toInt() < int(record.findings.size()));
        QVERIFY(
            textOf(pages.at(1)).contains(QStringLiteral("From here on: all that the workshop")));
    }

    void ofEndlessWords_isOnePageAndSaysWhereTheRestIs()
    {
        RecordBench bench;
        RecordModel record = bench.record(bench.worked());
        const auto left =
            std::ranges::find(record.operations, OperationState::LeftAsIs, &RecordOperation::state);
        QVERIFY(left != record.operations.end());
        // As long as is asked for, it is all there.
        left->leftWords = QStringLiteral("chips ").repeated(99) + QStringLiteral("ended");
        QVERIFY(left->leftWords.size() <= car::mostWordsForTheBuyer);
        const QString whole = textOf(paper::layOut(record).front()).simplified();
        QVERIFY2(whole.contains("chips ended") && !whole.contains("the whole text"),
                 qPrintable(whole));
        left->leftWords = QStringLiteral("chips ").repeated(900) + QStringLiteral("ended");
        const auto pages = paper::layOut(record);
        const QString first = textOf(pages.front()).simplified();
        QVERIFY2(first.contains("(the whole text is on the pages that follow)") &&
                     first.contains("Safety items"),
                 qPrintable(first));
        QVERIFY(
            textOf(pages.at(1)).contains(QStringLiteral("From here on: all that the workshop")));
        QVERIFY(std::any_of(pages.begin() + 1, pages.end(), [](const paper::Page& page) {
            return textOf(page).simplified().contains("chips ended");
        }));
    }

    void whereNotOneFindingHasRoom_isOnePage()
    {
        RecordBench bench;
        RecordModel record = bench.record(bench.worked());
        const auto found = std::ranges::find_if(record.findings, [&](const RecordFinding& finding) {
            return outcomeOf(record, finding) == FindingOutcome::Left &&
                   !finding.answeredBy.empty();
        });
        QVERIFY(found != record.findings.end());
        RecordOperation left = *record.operation(found->answeredBy.front());
        left.leftWords = QStringLiteral("chips ").repeated(100);
        for (int i = 0; i < 12; ++i) {
            left.id = OperationId{900 + i};
            record.operations.push_back(left);
            found->answeredBy.push_back(left.id);
        }
        const auto pages = paper::layOut(record);
        const QString first = textOf(pages.front()).simplified();
        QVERIFY2(first.contains("found; the list is on the pages that follow"), qPrintable(first));
        QVERIFY(
            textOf(pages.at(1)).contains(QStringLiteral("From here on: all that the workshop")));
    }

    // What was found comes before the table of safety items, however long that is.
    void ofManySafetyItems_keepsWhatWasFound()
    {
        RecordBench bench;
        RecordModel record = bench.record(bench.worked());
        QVERIFY(!record.findings.empty());
        const auto safety = std::ranges::find_if(record.operations, &RecordOperation::safety);
        QVERIFY(safety != record.operations.end());
        const RecordOperation item = *safety;
        for (int i = 0; i < 24; ++i) {
            RecordOperation more = item;
            more.title =
                QStringLiteral("safety item %1: looked at from below and from above").arg(i);
            record.operations.push_back(more);
        }
        const auto pages = paper::layOut(record);
        const QString first = textOf(pages.front()).simplified();
        QVERIFY2(!first.contains(QStringLiteral("the whole list")), qPrintable(first));
        QVERIFY2(!first.contains(QStringLiteral("found; the list")), qPrintable(first));
        static const QRegularExpression more(QStringLiteral("and (\\d+) more; all of them"));
        QVERIFY2(more.match(first).hasMatch(), qPrintable(first));
        QVERIFY2(first.contains(QStringLiteral("safety item 1: looked at")), qPrintable(first));
        QVERIFY(
            textOf(pages.at(1)).contains(QStringLiteral("From here on: all that the workshop")));
    }

    void secondNameIsMissed()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        RecordModel record = bench.record(id);
        RecordOperation& operation = record.operations.front();
        operation.safety = true;
        operation.second = SecondPerson::Countersign;
        operation.state = OperationState::AwaitingCheck;
        operation.signatures = {{bench.mechanic, bench.clock.now(), SignatureMeaning::DidTheWork,
                                 10, QString(), false}};
        const QString first = textOf(paper::layOut(record).front());
        QVERIFY2(first.contains(QStringLiteral("second person: nobody yet")), qPrintable(first));
    }
};

RAMPLIGHT_TEST(QGuiApplication, TestBuyersPage)
#include "tst_buyerspage.moc"
