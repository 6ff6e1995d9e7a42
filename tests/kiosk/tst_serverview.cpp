// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QTest>

namespace ramplight::test {

namespace {

/// A kiosk of a server, which stands to it as the test says.
class SharedDesk : public BenchDesk
{
public:
    [[nodiscard]] ServerStanding standing() const override { return m_told; }
    void tell(const ServerStanding& told)
    {
        m_told = told;
        emit standingChanged();
    }

private:
    ServerStanding m_told;
};

struct StripBench
{
    StripBench()
    {
        book.refresh();
        if (!QTest::qWaitFor([this] { return book.isRead(); }))
            qFatal("the site cannot be read");
        standing.shared = true;
        standing.knownAt = desk.bench.clock.now();
    }
    void tell() { desk.tell(standing); }
    void tell(const KeptTrouble& trouble)
    {
        KeptRequest request;
        request.number = 4;
        request.at = desk.bench.clock.now();
        request.trouble = trouble;
        standing.kept.push_back(request);
        tell();
    }
    [[nodiscard]] QString shortly(Moment at) const
    {
        return book.times().shortly(at, ticker.now());
    }

    SharedDesk desk;
    SiteBook book{desk, desk.bench.catalogue};
    Ticker ticker{desk.bench.clock};
    Session session{desk, book, ticker};
    ServerView view{desk, session, book, ticker};
    ServerStanding standing;
};

KeptRequest keptStart()
{
    KeptRequest request;
    request.number = 7;
    request.asked =
        CarRequest{CommandId{"kept"}, PersonId{1}, CarId{"car"}, {car::StartWork{}}, false};
    request.at = {1'930'000'000'000};
    request.works = {{CarId{"car"}, OperationId{2}, "K-7", "Final check", "final-check", {}}};
    return request;
}

} // namespace

// What every screen says of the server, and of what befell the files of this kiosk.
class TestServerView : public QObject
{
    Q_OBJECT

private slots:
    void nothing_isSaidOfNothing()
    {
        StripBench bench;
        bench.tell();
        QVERIFY(!bench.view.shown());
        // A house without a server has no strip, whatever stands there.
        bench.standing.shared = false;
        bench.standing.fault = QStringLiteral("made up");
        bench.tell();
        QVERIFY(!bench.view.shown());
    }

    // Also where this kiosk never knew the workshop.
    void siteThatWasMoved_isToldWithWhereItIs_data()
    {
        QTest::addColumn<bool>("isKnown");
        QTest::newRow("knew it") << true;
        QTest::newRow("new") << false;
    }

    void siteThatWasMoved_isToldWithWhereItIs()
    {
        QFETCH(bool, isKnown);
        StripBench bench;
        bench.standing.away = true;
        bench.standing.moved = true;
        bench.standing.hindrance = QStringLiteral("It was moved to the file on the machine wall.");
        if (!isKnown)
            bench.standing.knownAt = {};
        bench.tell();
        QVERIFY(bench.view.shown());
        QCOMPARE(bench.view.what(), QStringLiteral("This workshop is no longer on its server"));
        QCOMPARE(bench.view.detail(), bench.standing.hindrance);
    }

    void olderServer_isToldWithWhatItLacks()
    {
        StripBench bench;
        const Moment last = bench.desk.bench.clock.now().plusMinutes(-90);
        KeptTrouble trouble;
        trouble.kind = TroubleKind::ServerOlder;
        trouble.file = QStringLiteral("missing-on-server-20310304-101500.jsonl");
        trouble.missing = {{{}, {}, 1, last.plusMinutes(-5)}, {CarId{"car"}, "K-7", 4, last}};
        bench.tell(trouble);
        QVERIFY(bench.view.shown());
        QCOMPARE(bench.view.notices(), 1);
        QCOMPARE(bench.view.refused(), 0);
        QCOMPARE(bench.view.waiting(), 0);
        QCOMPARE(bench.view.what(),
                 QStringLiteral("The workshop's server is older than what this kiosk saw of it"));
        const KeptModel& rows = *bench.view.rows();
        QVERIFY(at(rows, 0, "notice").toBool());
        QVERIFY(at(rows, 0, "toBeRead").toBool());
        const QString here = at(rows, 0, "here").toString();
        QVERIFY2(here.contains(QStringLiteral("the server does not have 5 entries that this kiosk "
                                              "saw until %1.")
                                   .arg(bench.shortly(last))),
                 qPrintable(here));
        QVERIFY(at(rows, 0, "refusal").toString().contains(trouble.file));
        QCOMPARE(at(rows, 0, "there").toStringList(),
                 (QStringList{
                     QStringLiteral("People and rules · 1 entry · the last at %1")
                         .arg(bench.shortly(last.plusMinutes(-5))),
                     QStringLiteral("K-7 · 4 entries · the last at %1").arg(bench.shortly(last))}));
    }

    void damagedFile_isToldByItsName_withWhatWasReadOutOfIt()
    {
        StripBench bench;
        KeptTrouble trouble;
        trouble.file = QStringLiteral("outbox.damaged-20310304-101500.sqlite");
        trouble.readOut = 3;
        trouble.changed = 1;
        trouble.lost = 2;
        bench.tell(trouble);
        QCOMPARE(bench.view.what(), QStringLiteral("The file of what is kept here was damaged"));
        const QString here = at(*bench.view.rows(), 0, "here").toString();
        for (const QString& part :
             {trouble.file, QStringLiteral("sent as always: 3."),
              QStringLiteral("shown one by one: 1."), QStringLiteral("Not to be read: 2.")})
            QVERIFY2(here.contains(part), qPrintable(here));
        QVERIFY(!here.contains(QStringLiteral("cannot be told")));
        QVERIFY(at(*bench.view.rows(), 0, "refusal").toString().contains("enter it again"));
        // While the server is away, too.
        bench.standing.away = true;
        bench.tell();
        QVERIFY(bench.view.detail().endsWith(
            QStringLiteral("The file of what is kept here was damaged.")));
    }

    void keptPhoto_isShown()
    {
        StripBench bench;
        KeptRequest request = keptStart();
        auto& asked = std::get<CarRequest>(request.asked);
        const PhotoId photo{QString(64, QLatin1Char('a'))};
        asked.commands = {car::AttachPhoto{photo, PhotoMoment::Before, {}, {}, {}}};
        bench.standing.kept = {keptStart(), request};
        bench.standing.kept.back().number += 1;
        bench.tell();
        QVERIFY(at(*bench.view.rows(), 0, "photoUrl").toString().isEmpty());
        QVERIFY(at(*bench.view.rows(), 1, "photoUrl").toString().contains(photo.text));
    }

    void damagedRequest_isShownWithWhatCanBeReadOfIt()
    {
        StripBench bench;
        KeptRequest request = keptStart();
        request.damaged = true;
        KeptRequest unreadable;
        unreadable.number = 8;
        unreadable.damaged = true;
        bench.standing.kept = {keptStart(), request, unreadable};
        bench.standing.kept.front().number = 6;
        bench.tell();
        QCOMPARE(bench.view.notices(), 2);
        QCOMPARE(bench.view.waiting(), 1);
        QCOMPARE(bench.view.what(),
                 QStringLiteral("Something that was kept here is no longer what was written"));
        const KeptModel& rows = *bench.view.rows();
        QCOMPARE(at(rows, 0, "work").toString(), QStringLiteral("Final check"));
        QVERIFY(at(rows, 0, "here").toString().contains(QStringLiteral("Timer started")));
        QVERIFY(at(rows, 0, "refusal").toString().contains(QStringLiteral("not sent")));
        QCOMPARE(at(rows, 1, "work").toString(), QStringLiteral("Something that was done here"));
        QVERIFY(!at(rows, 2, "toBeRead").toBool());
    }

    void filesThatCannotBeUsed_areSaid()
    {
        StripBench bench;
        bench.standing.fault = QStringLiteral("Made by a newer version.");
        bench.tell();
        QVERIFY(bench.view.shown());
        QCOMPARE(bench.view.what(),
                 QStringLiteral("This kiosk cannot go on without the workshop's server"));
        QCOMPARE(bench.view.detail(), bench.standing.fault);
        // And without it nobody can sign in.
        bench.standing.away = true;
        bench.standing.knownAt = {};
        bench.tell();
        QVERIFY(bench.view.detail().contains(QStringLiteral("knows no staff")));
        QVERIFY(bench.view.detail().contains(bench.standing.fault));
        QVERIFY(bench.view.staffWords().contains(QStringLiteral("nobody can sign in")));
    }

    void whatWaitsAtAServerThatAnswers_isSaid()
    {
        StripBench bench;
        bench.standing.kept = {keptStart()};
        bench.tell();
        QVERIFY(bench.view.shown());
        QCOMPARE(bench.view.what(), QStringLiteral("1 thing is kept here, not yet on the wall"));
        QVERIFY(!bench.view.detail().isEmpty());
    }
};

} // namespace ramplight::test

RAMPLIGHT_TEST(QCoreApplication, ramplight::test::TestServerView)
#include "tst_serverview.moc"
