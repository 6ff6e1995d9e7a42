// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "recordbench.h"

#include "record/exportcar.h"
#include "record/recordcheck.h"
#include "record/recordparts.h"
#include "record/recordwords.h"
#include "support/testmain.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// A record held against the ledger later.
class TestRecordCheck : public QObject
{
    Q_OBJECT

private:
    static RecordStamp stampOf(RecordBench& bench, const CarId& id)
    {
        return ramplight::stampOf(bench.record(id));
    }

    static RecordCheck check(RecordBench& bench, const CarId& id, const RecordStamp& stamp)
    {
        return checkRecord(stamp, bench.car(id), bench.history(id), bench.site(),
                           RecordBench::headAt(id, stamp.seq), bench.line);
    }

private slots:
    void check_unchanged_agrees()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        bench.release(id);
        const RecordStamp stamp = stampOf(bench, id);
        bench.clock.pass(60 * 24 * 30);
        const RecordCheck now = check(bench, id, stamp);
        QVERIFY2(now.agrees, qPrintable(now.words));
        QVERIFY(now.words.startsWith(QStringLiteral("Agrees: K1 ")));
    }

    void check_whileTimePasses_agreesWithHoldsAsTheyWere()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        bench.found(id, "windscreen", Condition::Crack);
        bench.close(id, bench.open(id, "windscreen-fit"));
        QCOMPARE(bench.record(id).holds.back().kind, HoldKind::OpenOperation);
        const RecordStamp stamp = stampOf(bench, id);
        bench.clock.pass(600);
        QVERIFY(bench.record(id).digest() != stamp.modelDigest);
        QVERIFY(check(bench, id, stamp).agrees);
    }

    void fingerprint_ofAnEarlierEntry_isThatEntrysToo()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        RecordStamp stamp = stampOf(bench, id);
        bench.must(bench.manager, id, car::MoveCar{{}, QStringLiteral("forecourt")});
        QVERIFY2(check(bench, id, stamp).words.contains(QStringLiteral("True when it was made")),
                 qPrintable(check(bench, id, stamp).words));
        stamp.headHash = bench.head(id).hash;
        const RecordCheck other = check(bench, id, stamp);
        QVERIFY(!other.agrees);
        QVERIFY2(other.words.contains(QStringLiteral("fingerprint")), qPrintable(other.words));
    }

    void check_afterANameWasErased_agrees()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const RecordStamp stamp = stampOf(bench, id);
        SiteState site = bench.site();
        for (auto& [number, person] : site.people)
            person.name.clear();
        QVERIFY(
            checkRecord(stamp, bench.car(id), bench.history(id), site, bench.head(id), {}).agrees);
    }

    void check_entriesSince_isSuperseded()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        bench.release(id);
        const RecordStamp stamp = stampOf(bench, id);
        const qint64 before = bench.car(id).seq;
        bench.found(id, "tyre-front-left", Condition::Cut);
        const qint64 since = bench.car(id).seq - before;
        const RecordCheck now = check(bench, id, stamp);
        QVERIFY(!now.agrees);
        const QString when = RecordTimes(bench.site().rules.timeZone).full(bench.clock.now());
        QVERIFY2(
            now.words.startsWith(
                QStringLiteral("Superseded since %1, when the car was held again: ").arg(when)),
            qPrintable(now.words));
        for (const QString& said :
             {QStringLiteral("True when it was made; %1 entries since.").arg(since),
              QStringLiteral("Changed since: whether it is released; "),
              QStringLiteral("The car now: Not released yet")})
            QVERIFY2(now.words.contains(said), qPrintable(now.words));
        // Why: the finding's own words, behind "held again".
        QVERIFY(!bench.car(id).heldAgainWhy.isEmpty());
        QVERIFY(now.words.contains(bench.car(id).heldAgainWhy));
    }

    void check_heldAgainAfterOtherEntries_namesTheHold()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        bench.release(id);
        const RecordStamp stamp = stampOf(bench, id);
        bench.clock.pass(60);
        bench.must(bench.mechanic, id, car::ReadOdometer{60'000, DistanceUnit::Miles});
        bench.clock.pass(60 * 24);
        const QString when = RecordTimes(bench.site().rules.timeZone).full(bench.clock.now());
        bench.found(id, "tyre-front-left", Condition::Cut);
        const RecordCheck now = check(bench, id, stamp);
        QVERIFY2(now.words.startsWith(
                     QStringLiteral("Superseded since %1, when the car was held again").arg(when)),
                 qPrintable(now.words));
        QVERIFY2(now.words.contains(QStringLiteral("odometer readings (new)")),
                 qPrintable(now.words));
    }

    void check_afterPhotosWereRemoved_agreesAndSaysSo()
    {
        RecordBench bench;
        HouseRules rules = bench.site().rules;
        rules.photoYears = 6;
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}), done);
        const CarId id = bench.worked();
        bench.release(id);
        const RecordStamp stamp = stampOf(bench, id);
        const std::size_t photos = bench.car(id).photoFates.size();
        QVERIFY(photos > 0);
        bench.clock.pass(60 * 24 * 366 * 7);
        bench.must(bench.manager, id, car::RemovePhotos{});
        const RecordCheck now = check(bench, id, stamp);
        QVERIFY2(now.agrees, qPrintable(now.words));
        QVERIFY2(now.words.contains(QStringLiteral("removed %1 of its photos").arg(photos)),
                 qPrintable(now.words));
        // A record of today says it in the place of each, and is true, too.
        const RecordModel today = bench.record(id);
        for (const RecordOperation& operation : today.operations)
            for (const RecordPhoto& photo : operation.photos)
                QCOMPARE(photo.gone, QStringLiteral("removed after 6 years"));
        // An export looks for none of them, and says so of each.
        QCOMPARE(photosOf(today), std::vector<PhotoId>());
        const QJsonArray exported = QJsonDocument::fromJson(exportedCar(today, {}))
                                        .object()
                                        .value(QStringLiteral("photos"))
                                        .toArray();
        QVERIFY(!exported.isEmpty());
        for (const QJsonValue& photo : exported) {
            QVERIFY(!photo.toObject().contains(QStringLiteral("file")));
            QCOMPARE(photo.toObject().value(QStringLiteral("removed")).toString(),
                     QStringLiteral("removed after 6 years"));
        }
        QVERIFY(today.steps.back().words.contains(QStringLiteral("photos removed")));
        QVERIFY(check(bench, id, stampOf(bench, id)).agrees);
        // What comes after that supersedes both.
        bench.found(id, "tyre-front-left", Condition::Cut);
        QVERIFY(!check(bench, id, stamp).agrees);
    }

    void check_oneEntrySince_saysSo()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        const RecordStamp stamp = stampOf(bench, id);
        bench.must(bench.manager, id, car::ChangePromise{QDate(2031, 4, 1), QStringLiteral("x")});
        const RecordCheck now = check(bench, id, stamp);
        const QString when = RecordTimes(bench.site().rules.timeZone).full(bench.clock.now());
        QCOMPARE(now.words.left(now.words.indexOf(QStringLiteral(" Not released"))),
                 QStringLiteral("Superseded since %1. True when it was made; one entry since. "
                                "Changed since: the promised day. The car still:")
                     .arg(when));
    }

    void check_whatDiffers_isSaid_data()
    {
        QTest::addColumn<QString>("what");
        QTest::addColumn<QString>("words");
        QTest::newRow("digest") << "digest"
                                << "is not what the ledger held at entry";
        QTest::newRow("moment") << "moment"
                                << "is not what the ledger held at entry";
        QTest::newRow("head") << "head"
                              << "the fingerprint of K1 is not the one";
        QTest::newRow("stock number") << "stock"
                                      << "stock number K99, the ledger said K1 then";
        QTest::newRow("other car") << "car"
                                   << "of another car";
        QTest::newRow("entries missing") << "seq"
                                         << "Entries are missing";
    }

    void check_whatDiffers_isSaid()
    {
        QFETCH(QString, what);
        QFETCH(QString, words);
        RecordBench bench;
        const CarId id = bench.worked();
        RecordStamp stamp = stampOf(bench, id);
        QVERIFY(check(bench, id, stamp).agrees);
        if (what == "digest")
            stamp.modelDigest = QString(64, QLatin1Char('0'));
        if (what == "moment")
            stamp.madeAt = stamp.madeAt.plusMinutes(1);
        if (what == "head")
            stamp.headHash = QString(64, QLatin1Char('0'));
        if (what == "stock")
            stamp.stockNumber = QStringLiteral("K99");
        if (what == "car")
            stamp.car = QStringLiteral("car-7");
        if (what == "seq")
            stamp.seq += 3;
        const RecordCheck now = check(bench, id, stamp);
        QVERIFY(!now.agrees);
        QVERIFY(now.words.startsWith(QStringLiteral("Differs: ")));
        QVERIFY2(now.words.contains(words), qPrintable(now.words));
    }

    void check_anEntryThatWasChanged_differs()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const RecordStamp stamp = stampOf(bench, id);
        std::vector<CarEnvelope> forged = bench.history(id);
        for (CarEnvelope& entry : forged)
            if (auto* signature = std::get_if<OperationSigned>(&entry.event))
                signature->note = QStringLiteral("all fine");
        CarState now;
        now.id = id;
        for (const CarEnvelope& entry : forged)
            apply(now, entry);
        const RecordCheck result =
            checkRecord(stamp, now, forged, bench.site(), bench.head(id), bench.line);
        QVERIFY(!result.agrees);
        QVERIFY(result.words.contains(QStringLiteral("is not what the ledger held")));
        // What was forged is named, and only that.
        const RecordModel forgedRecord = bench.record(id);
        QStringList signedWork;
        for (const RecordOperation& operation : forgedRecord.operations)
            if (!operation.signatures.empty())
                signedWork.append(QStringLiteral("the work “%1”").arg(operation.title));
        QVERIFY(signedWork.size() > 1);
        QVERIFY2(
            result.words.contains(QStringLiteral("Not the same: %1; ").arg(signedWork.front())),
            qPrintable(result.words));
        QVERIFY(!result.words.contains(QStringLiteral("finding ")));
    }

    void check_withoutParts_differsAsBefore()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        RecordStamp stamp = stampOf(bench, id);
        stamp.parts.clear();
        QVERIFY(check(bench, id, stamp).agrees);
        stamp.modelDigest = QString(64, QLatin1Char('0'));
        const RecordCheck now = check(bench, id, stamp);
        QVERIFY(now.words.startsWith(QStringLiteral("Differs: ")));
        QVERIFY(!now.words.contains(QStringLiteral("Not the same")));
    }

    void parts_nameWhatIsNewChangedAndGone()
    {
        RecordBench bench;
        const RecordModel before = bench.record(bench.worked());
        QVERIFY(differences(partsOf(before), before).isEmpty());
        RecordModel now = before;
        now.identity.colour = QStringLiteral("red");
        now.findings.front().versions.back().data.note = QStringLiteral("deeper than it looked");
        const QString gone = QString::number(now.findings.back().id.value);
        now.findings.pop_back();
        now.heldAgainWhy = QStringLiteral("a cut tyre");
        QCOMPARE(
            differences(partsOf(before), now),
            (QStringList{QStringLiteral("the car's identity"),
                         QStringLiteral("why it was held again (new)"),
                         QStringLiteral("finding 1 (%1)").arg(now.findings.front().now().words),
                         QStringLiteral("finding %1 (no longer)").arg(gone)}));
    }

    void code_comesBack_andIsRefusedWhenItIsNotWhole()
    {
        RecordBench bench;
        RecordStamp stamp = stampOf(bench, bench.worked());
        stamp.stockNumber = QStringLiteral("T:3 Ü/%");
        const QByteArray code = stampCode(stamp).toLatin1();
        QVERIFY(isStampCode(code));
        stamp.parts.clear();
        QCOMPARE(*readStamp(code + '\n'), stamp);
        for (qsizetype length = 0; length < code.size(); ++length)
            QVERIFY2(!readStamp(code.left(length)), code.left(length).constData());
        for (const char* bad : {"RLR1:T:car:1:2:x:y", "RLR1:T:car:none:2:x:y", "RLR1:::::::"})
            QVERIFY2(!readStamp(bad), bad);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRecordCheck)
#include "tst_recordcheck.moc"
