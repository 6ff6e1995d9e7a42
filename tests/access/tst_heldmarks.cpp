// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/heldmarks.h"
#include "drawer.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;
using namespace std::chrono_literals;
using Outcome = SignInAnswer::Outcome;
using std::chrono::milliseconds;

// Sign-ins while nothing can be written: a full disk, a server that only reads.
class TestHeldMarks : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_drawer = std::make_unique<Drawer>();
        m_held = {};
        QVERIFY(over(*m_drawer).setPin(anna, pinOf("481957")));
        m_drawer->writingFails = true;
    }

    void guesses_areDelayedAsIfTheyWereWritten()
    {
        for (int i = 0; i < 6; ++i)
            QCOMPARE(tryPin("000001", 0s).error(), AccessError::StoreAway);
        // The right one learns nothing before its time, and no more than the wrong one.
        for (const char* pin : {"481957", "000001"})
            QCOMPARE(*tryPin(pin, 10s),
                     (SignInAnswer{.outcome = Outcome::Waiting, .wait = 20s, .failuresInARow = 6}));
        QCOMPARE(tryPin("000001", 30s).error(), AccessError::StoreAway);
        QCOMPARE(tryPin("481957", 31s)->wait, milliseconds(59s));
        QCOMPARE(tryPin("481957", 90s)->outcome, Outcome::SignedIn);
        // The row is over.
        QCOMPARE(tryPin("481957", 91s)->outcome, Outcome::SignedIn);
        // Nobody else waits.
        QVERIFY(m_drawer->book[anna].empty());
        QCOMPARE(tryPin("481957", 0s, nobody).error(), AccessError::StoreAway);
    }

    void clockSetBack_waitsAnew()
    {
        for (int i = 0; i < 6; ++i)
            QVERIFY(!tryPin("000001", 0s));
        std::ignore = tryPin("481957", -2h);
        QCOMPARE(tryPin("481957", -2h + 10s)->wait, milliseconds(20s));
        QCOMPARE(tryPin("481957", -2h + 30s)->outcome, Outcome::SignedIn);
    }

    void ownSlip_keepsNobodyOut()
    {
        m_drawer->book[anna].push_back({SignInMark::Kind::WrongPin, noon});
        QVERIFY(!tryPin("481975", 1s));
        QCOMPARE(tryPin("481957", 2s)->outcome, Outcome::SignedIn);
    }

    void hundred_lock_untilTheManagersReset()
    {
        std::chrono::seconds at = 0s;
        // What tells of the row and of the lock cannot be written either, and costs a try each.
        for (int i = 0; i < 102; ++i, at += 16min)
            QVERIFY(!tryPin("000001", at));
        QCOMPARE(tryPin("481957", at)->outcome, Outcome::Locked);
        QVERIFY(m_drawer->alarms.size() > 1U);
        m_drawer->writingFails = false;
        QCOMPARE(tryPin("481957", at)->outcome, Outcome::Locked);
        QCOMPARE(m_drawer->count(anna, SignInMark::Kind::Lock), 1);
        HoldingBook book(*m_drawer, m_held);
        QVERIFY(signIn(book).setPin(anna, pinOf("730284")));
        QCOMPARE(tryPin("730284", at)->outcome, Outcome::SignedIn);
    }

    void reset_takesWhatIsHeldAlong()
    {
        for (int i = 0; i < 6; ++i)
            QVERIFY(!tryPin("000001", 0s));
        m_drawer->writingFails = false;
        HoldingBook book(*m_drawer, m_held);
        QVERIFY(book.clear(anna));
        QVERIFY(m_held.isEmpty());
        QCOMPARE(tryPin("481957", 1s)->outcome, Outcome::SignedIn);
    }

    void whatIsHeld_isWrittenInItsOrderOnceItCanBe()
    {
        QVERIFY(!tryPin("000001", 0s));
        QVERIFY(!tryPin("000002", 1s));
        QCOMPARE(tryPin("481957", 2s)->outcome, Outcome::SignedIn);
        m_drawer->writingFails = false;
        QCOMPARE(tryPin("000003", 3s)->failuresInARow, 1);
        QCOMPARE(m_drawer->book[anna],
                 (std::vector<SignInMark>{{SignInMark::Kind::WrongPin, noon},
                                          {SignInMark::Kind::WrongPin, after(1s)},
                                          {SignInMark::Kind::Success, after(2s)},
                                          {SignInMark::Kind::WrongPin, after(3s)}}));
        QVERIFY(m_held.isEmpty());
    }

    // The server went away in the middle, and the working copy is asked the same again.
    void askedASecondTime_isOneWrongPin_data()
    {
        QTest::addColumn<int>("before");
        QTest::newRow("the first one") << 0;
        QTest::newRow("the one that begins the delay") << 4;
    }

    void askedASecondTime_isOneWrongPin()
    {
        QFETCH(const int, before);
        for (int i = 0; i < before; ++i)
            m_drawer->book[anna].push_back({SignInMark::Kind::WrongPin, noon});
        QCOMPARE(tryPin("000001", 1s).error(), AccessError::StoreAway);
        m_drawer->writingFails = false;
        HoldingBook again(*m_drawer, m_held, HoldingBook::Asked::Again);
        const auto answer = signIn(again).tryPin(anna, pinOf("000001"), after(1s));
        QVERIFY(answer && answer->outcome != Outcome::SignedIn);
        QCOMPARE(answer->failuresInARow, before + 1);
        QCOMPARE(m_drawer->count(anna, SignInMark::Kind::WrongPin), before + 1);
        QVERIFY(m_held.isEmpty());
        // The next one counts, at whatever time.
        HoldingBook next(*m_drawer, m_held);
        QVERIFY(next.add(anna, {SignInMark::Kind::WrongPin, after(1s)}));
        QCOMPARE(m_drawer->count(anna, SignInMark::Kind::WrongPin), before + 2);
    }

    void spreadOverManyPeople_isToldOnceItCanBe()
    {
        for (int i = 0; i < 10; ++i)
            QVERIFY(!tryPin("000001", 0s, PersonId{80 + i / 2}));
        m_drawer->writingFails = false;
        QCOMPARE(tryPin("000001", 1s, PersonId{90})->outcome, Outcome::Wrong);
        QVERIFY(std::ranges::any_of(m_drawer->alarms, [](const PinGuesses& told) {
            return told.kind == SignInMark::Kind::Spread;
        }));
    }

private:
    SignIn signIn(FailureBook& book)
    {
        return {PinHasher(Secret(QByteArray(32, 'p')), cheap), *m_drawer, book, *m_drawer};
    }
    /// As the desk does it: anew each time, but for what is held.
    tl::expected<SignInAnswer, AccessError> tryPin(const char* pin, std::chrono::seconds at,
                                                   PersonId person = anna)
    {
        HoldingBook book(*m_drawer, m_held);
        return signIn(book).tryPin(person, pinOf(pin), after(at));
    }

    std::unique_ptr<Drawer> m_drawer;
    HeldMarks m_held;
};

RAMPLIGHT_TEST(QCoreApplication, TestHeldMarks)
#include "tst_heldmarks.moc"
