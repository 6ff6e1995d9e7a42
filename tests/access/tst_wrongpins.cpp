// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "drawer.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;
using namespace std::chrono_literals;
using Outcome = SignInAnswer::Outcome;
using std::chrono::milliseconds;

// Wrong PINs are told: to the managers where somebody guesses, to their owner who signs in.
class TestWrongPins : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_drawer = std::make_unique<Drawer>();
        QVERIFY(over(*m_drawer).setPin(anna, pinOf("481957")));
    }

    // Nobody has to wait for the hundredth.
    void rowAtTheLongestDelay_isToldOnce_andTheNextRowAgain()
    {
        SignIn signIn = over(*m_drawer);
        Moment now = noon;
        const auto guess = [&](int times) {
            for (int i = 0; i < times; ++i) {
                now.ms += 1000;
                now.ms += signIn.tryPin(anna, pinOf("000001"), now)->wait.count();
            }
        };
        guess(10);
        QVERIFY(m_drawer->alarms.empty());
        const Moment eleventh{now.ms + 1000};
        guess(5);
        const PinGuesses first{anna, eleventh, 11, SignInMark::Kind::Row};
        QCOMPARE(m_drawer->alarms, std::vector{first});
        QCOMPARE(m_drawer->count(anna, SignInMark::Kind::Row), 1);
        // It keeps nobody out.
        now.ms += 1000;
        QCOMPARE(signIn.tryPin(anna, pinOf("481957"), now)->outcome, Outcome::SignedIn);
        guess(11);
        QCOMPARE(m_drawer->alarms.size(), std::size_t{2});
        QCOMPARE(m_drawer->alarms.back().failures, 11);
        QCOMPARE(m_drawer->alarms.back().kind, SignInMark::Kind::Row);
    }

    // Who tries one name after the other meets no delay.
    void wrongPinsOfManyPeople_areTold_andKeepNobodyOut()
    {
        SignIn signIn = over(*m_drawer);
        Moment now = noon;
        int name = 10;
        const auto round = [&](int people) {
            for (int person = 1; person <= people; ++person) {
                now.ms += 1000;
                QCOMPARE(signIn.tryPin(PersonId{name + person}, pinOf("000001"), now)->wait,
                         milliseconds(0));
            }
        };
        round(5);
        round(4);
        QVERIFY(m_drawer->alarms.empty());
        round(1);
        const PinGuesses told{{}, now, 10, SignInMark::Kind::Spread, 5};
        QCOMPARE(m_drawer->alarms, std::vector{told});
        round(5);
        QCOMPARE(m_drawer->alarms, std::vector{told});
        QCOMPARE(signIn.tryPin(anna, pinOf("481957"), now)->outcome, Outcome::SignedIn);
        // Later, and again.
        now.ms += milliseconds(16min).count();
        name = 20;
        round(5);
        QCOMPARE(m_drawer->alarms.size(), std::size_t{1});
        round(5);
        QCOMPARE(m_drawer->alarms.size(), std::size_t{2});
        QCOMPARE(m_drawer->alarms.back(), (PinGuesses{{}, now, 10, SignInMark::Kind::Spread, 5}));
    }

    void alarmAboutMany_thatCameToNothing_isRaisedAgain()
    {
        SignIn signIn = over(*m_drawer);
        m_drawer->alarmFails = PersonId();
        for (int i = 0; i < 10; ++i)
            QVERIFY(signIn.tryPin(PersonId{10 + i % 5}, pinOf("000001"), noon));
        QVERIFY(m_drawer->alarms.empty());
        // As after a kill: the mark is there, and nobody was told.
        m_drawer->alarmFails.reset();
        QVERIFY(tellGuesses(*m_drawer, *m_drawer));
        QCOMPARE(m_drawer->alarms,
                 (std::vector{PinGuesses{{}, noon, 10, SignInMark::Kind::Spread, 5}}));
    }

    void whoSignsIn_isToldOfWrongPins_butNotOfOwnSlips()
    {
        SignIn signIn = over(*m_drawer);
        QVERIFY(signIn.tryPin(anna, pinOf("000001"), noon));
        QVERIFY(signIn.tryPin(anna, pinOf("000001"), after(20s)));
        QVERIFY(!signIn.tryPin(anna, pinOf("481957"), after(40s))->wrongBefore);
        for (int i = 0; i < 3; ++i)
            QVERIFY(signIn.tryPin(anna, pinOf("000001"), after(60s)));
        QCOMPARE(signIn.tryPin(anna, pinOf("481957"), after(70s))->wrongBefore,
                 (WrongPins{3, after(60s)}));
        // One evening, one try; its owner comes in the morning.
        QVERIFY(signIn.tryPin(anna, pinOf("000001"), after(9h)));
        QCOMPARE(signIn.tryPin(anna, pinOf("481957"), after(20h))->wrongBefore,
                 (WrongPins{1, after(9h)}));
        QVERIFY(!signIn.tryPin(anna, pinOf("481957"), after(21h))->wrongBefore);
    }

    // A clock that jumps ahead ends a delay, as time does; it forgets nothing.
    void clockThatJumpsAhead_endsADelay_andForgetsNothing()
    {
        SignIn signIn = over(*m_drawer);
        for (int i = 0; i < 6; ++i)
            QVERIFY(signIn.tryPin(anna, pinOf("000001"), noon));
        QCOMPARE(signIn.tryPin(anna, pinOf("000001"), after(1s))->outcome, Outcome::Waiting);
        const auto ahead = signIn.tryPin(anna, pinOf("000001"), after(24h));
        QCOMPARE(ahead->outcome, Outcome::Wrong);
        QCOMPARE(ahead->failuresInARow, 7);
        QCOMPARE(ahead->wait, milliseconds(60s));
        // Set right again, the last failure lies a day ahead: all of its delay runs from now on.
        const auto back = signIn.tryPin(anna, pinOf("481957"), after(2s));
        QCOMPARE(back->outcome, Outcome::Waiting);
        QCOMPARE(back->wait, milliseconds(60s));
        const auto right = signIn.tryPin(anna, pinOf("481957"), after(62s));
        QCOMPARE(right->outcome, Outcome::SignedIn);
        QCOMPARE(right->wrongBefore, (WrongPins{7, after(24h)}));
    }

private:
    std::unique_ptr<Drawer> m_drawer;
};

RAMPLIGHT_TEST(QCoreApplication, TestWrongPins)
#include "tst_wrongpins.moc"
