// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "drawer.h"
#include "support/testmain.h"

#include <QTest>

#include <set>

using namespace ramplight;
using namespace ramplight::test;
using namespace std::chrono_literals;
using Outcome = SignInAnswer::Outcome;
using std::chrono::milliseconds;

class TestSignIn : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_drawer = std::make_unique<Drawer>();
        QVERIFY(over(*m_drawer).setPin(anna, pinOf("481957")));
    }

    void rightPin_signsIn()
    {
        const auto answer = over(*m_drawer).tryPin(anna, pinOf("481957"), noon);
        QVERIFY(answer);
        QCOMPARE(answer->outcome, Outcome::SignedIn);
        QVERIFY(m_drawer->book[anna].empty()); // a sign-in without failures writes nothing
    }

    void wrongPin_isCounted()
    {
        const auto answer = over(*m_drawer).tryPin(anna, pinOf("481958"), noon);
        QVERIFY(answer);
        QCOMPARE(*answer, (SignInAnswer{.outcome = Outcome::Wrong, .failuresInARow = 1}));
        QCOMPARE(m_drawer->count(anna, SignInMark::Kind::WrongPin), 1);
    }

    void unknownPerson_answersLikeAWrongPin()
    {
        const auto answer = over(*m_drawer).tryPin(nobody, pinOf("481957"), noon);
        const auto wrong = over(*m_drawer).tryPin(anna, pinOf("481958"), noon);
        QVERIFY(answer && wrong);
        QCOMPARE(*answer, *wrong);
        QCOMPARE(words(*answer), words(*wrong));
        QCOMPARE(m_drawer->book[nobody], m_drawer->book[anna]);
    }

    void unknownPerson_isHashedAllTheSame()
    {
        // A cost that cannot be met shows that the hash is really computed for nobody, too.
        SignIn signIn = over(*m_drawer, {.passes = 1, .memoryBytes = 1024});
        const auto answer = signIn.tryPin(nobody, pinOf("481957"), noon);
        QVERIFY(!answer);
        QCOMPARE(answer.error(), AccessError::HashingFailed);
    }

    void failures_delayTheNextTryAcrossARestart()
    {
        for (int i = 0; i < 5; ++i)
            QCOMPARE(over(*m_drawer).tryPin(anna, pinOf("000001"), noon)->wait, milliseconds(0));
        const auto sixth = over(*m_drawer).tryPin(anna, pinOf("000001"), noon);
        QCOMPARE(*sixth,
                 (SignInAnswer{.outcome = Outcome::Wrong, .wait = 30s, .failuresInARow = 6}));

        SignIn restarted = over(*m_drawer);
        const auto early = restarted.tryPin(anna, pinOf("481957"), after(10s));
        QCOMPARE(*early,
                 (SignInAnswer{.outcome = Outcome::Waiting, .wait = 20s, .failuresInARow = 6}));
        QCOMPARE(m_drawer->count(anna, SignInMark::Kind::WrongPin), 6); // it was not looked at
        QVERIFY(words(*early).contains(QStringLiteral("20 s")));
        QCOMPARE(restarted.tryPin(anna, pinOf("481957"), after(30s))->outcome, Outcome::SignedIn);
        // The row is over: the next failure costs nothing again.
        QCOMPARE(restarted.tryPin(anna, pinOf("000001"), after(31s))->wait, milliseconds(0));
    }

    void clockSetBack_waitsAnewAndOnlyOnce()
    {
        SignIn signIn = over(*m_drawer);
        for (int i = 0; i < 6; ++i)
            QVERIFY(signIn.tryPin(anna, pinOf("000001"), noon));
        const auto noticed = signIn.tryPin(anna, pinOf("481957"), after(-2h));
        QCOMPARE(noticed->outcome, Outcome::Waiting);
        QCOMPARE(noticed->wait, milliseconds(30s));
        const auto later = signIn.tryPin(anna, pinOf("481957"), after(-2h + 25s));
        QCOMPARE(later->wait, milliseconds(5s));
        QCOMPARE(m_drawer->count(anna, SignInMark::Kind::ClockBack), 1);
        QCOMPARE(signIn.tryPin(anna, pinOf("481957"), after(-2h + 30s))->outcome,
                 Outcome::SignedIn);
    }

    void hundredthFailure_locksUntilTheManagersReset()
    {
        SignIn signIn = over(*m_drawer);
        Moment now = noon;
        for (int i = 1; i <= 100; ++i) {
            const auto answer = signIn.tryPin(anna, pinOf("000001"), now);
            QVERIFY(answer);
            QCOMPARE(answer->outcome, i < 100 ? Outcome::Wrong : Outcome::Locked);
            QCOMPARE(m_drawer->alarms.size(), std::size_t{i < 11 ? 0U : i < 100 ? 1U : 2U});
            now.ms += answer->wait.count();
        }
        QCOMPARE(m_drawer->alarms.back(), (PinGuesses{anna, now, 100}));
        const Moment monthsLater{now.ms + milliseconds(24h * 200).count()};
        const auto right = over(*m_drawer).tryPin(anna, pinOf("481957"), monthsLater);
        QCOMPARE(*right, (SignInAnswer{.outcome = Outcome::Locked, .failuresInARow = 100}));
        QCOMPARE(m_drawer->count(anna, SignInMark::Kind::Lock), 1);
        QCOMPARE(signIn.standing(anna, monthsLater)->outcome, Outcome::Locked);
        // Others are not touched.
        QCOMPARE(signIn.tryPin(nobody, pinOf("481957"), now)->outcome, Outcome::Wrong);

        QVERIFY(signIn.setPin(anna, pinOf("730284")));
        QCOMPARE(signIn.tryPin(anna, pinOf("481957"), monthsLater)->outcome, Outcome::Wrong);
        QCOMPARE(signIn.tryPin(anna, pinOf("730284"), monthsLater)->outcome, Outcome::SignedIn);
    }

    void lockMarkLost_isWrittenAgain()
    {
        // As if the power went between the hundredth failure and the lock.
        for (int i = 0; i < 100; ++i)
            m_drawer->book[anna].push_back({SignInMark::Kind::WrongPin, noon});
        QCOMPARE(over(*m_drawer).standing(anna, after(1h))->outcome, Outcome::Locked);
        QCOMPARE(m_drawer->count(anna, SignInMark::Kind::Lock), 1);
        QCOMPARE(m_drawer->alarms, (std::vector{PinGuesses{anna, after(1h), 100}}));
    }

    void alarmThatCameToNothing_isRaisedAtTheNextLook()
    {
        for (int i = 0; i < 99; ++i)
            m_drawer->book[anna].push_back({SignInMark::Kind::WrongPin, noon});
        m_drawer->alarmFails = anna;
        SignIn signIn = over(*m_drawer);
        QCOMPARE(signIn.tryPin(anna, pinOf("000001"), after(1h))->outcome, Outcome::Locked);
        QCOMPARE(m_drawer->count(anna, SignInMark::Kind::Lock), 1);
        QVERIFY(m_drawer->alarms.empty());
        m_drawer->alarmFails.reset();
        QCOMPARE(signIn.tryPin(anna, pinOf("481957"), after(2h))->outcome, Outcome::Locked);
        QCOMPARE(m_drawer->alarms,
                 (std::vector{PinGuesses{anna, after(1h), 99, SignInMark::Kind::Row},
                              PinGuesses{anna, after(1h), 100}}));
    }

    void newPin_isNotSetOverAnAlarmThatIsOwed()
    {
        for (int i = 0; i < 100; ++i)
            m_drawer->book[anna].push_back({SignInMark::Kind::WrongPin, noon});
        m_drawer->alarmFails = anna;
        SignIn signIn = over(*m_drawer);
        QCOMPARE(signIn.standing(anna, after(1h))->outcome, Outcome::Locked);
        const QByteArray before = m_drawer->hashes[anna];
        QCOMPARE(signIn.setPin(anna, pinOf("730284")).error(), AccessError::StoreAway);
        QCOMPARE(m_drawer->hashes[anna], before);
        QCOMPARE(signIn.standing(anna, after(2h))->outcome, Outcome::Locked);
        m_drawer->alarmFails.reset();
        QVERIFY(signIn.setPin(anna, pinOf("730284")));
        QCOMPARE(m_drawer->alarms, (std::vector{PinGuesses{anna, after(1h), 100}}));
        QCOMPARE(signIn.tryPin(anna, pinOf("730284"), after(2h))->outcome, Outcome::SignedIn);
    }

    void alarmsThatAreOwed_areToldForEverybody()
    {
        const PersonId bram{4};
        const PersonId cleo{5};
        for (const PersonId person : {anna, bram, cleo})
            m_drawer->book[person].push_back({SignInMark::Kind::WrongPin, noon});
        m_drawer->book[anna].push_back({SignInMark::Kind::Lock, noon});
        m_drawer->book[cleo].push_back({SignInMark::Kind::Lock, after(1h)});
        // One that cannot be told keeps nobody else's back, and is still said.
        m_drawer->alarmFails = anna;
        QCOMPARE(tellGuesses(*m_drawer, *m_drawer).error(), AccessError::StoreAway);
        QCOMPARE(m_drawer->alarms, (std::vector{PinGuesses{cleo, after(1h), 1}}));
        m_drawer->alarmFails.reset();
        QVERIFY(tellGuesses(*m_drawer, *m_drawer));
        QCOMPARE(m_drawer->alarms,
                 (std::vector{PinGuesses{cleo, after(1h), 1}, PinGuesses{anna, noon, 1}}));
        m_drawer->readingFails = true;
        QCOMPARE(tellGuesses(*m_drawer, *m_drawer).error(), AccessError::StoreAway);
    }

    void standing_looksAtNoPin()
    {
        SignIn signIn = over(*m_drawer);
        QCOMPARE(signIn.standing(anna, noon)->wait, milliseconds(0));
        for (int i = 0; i < 7; ++i)
            m_drawer->book[anna].push_back({SignInMark::Kind::WrongPin, noon});
        QCOMPARE(*signIn.standing(anna, noon),
                 (SignInAnswer{.outcome = Outcome::Waiting, .wait = 60s, .failuresInARow = 7}));
        QCOMPARE(m_drawer->book[anna].size(), std::size_t{7});
    }

    void setPin_refusesATrivialOneAndKeepsTheOld()
    {
        SignIn signIn = over(*m_drawer);
        const auto set = signIn.setPin(anna, pinOf("123456"));
        QVERIFY(!set);
        QCOMPARE(set.error(), AccessError::PinStraightRun);
        QCOMPARE(signIn.tryPin(anna, pinOf("481957"), noon)->outcome, Outcome::SignedIn);
    }

    void setPin_isForSomebody()
    {
        QCOMPARE(over(*m_drawer).setPin({}, pinOf("730284")).error(), AccessError::NobodyNamed);
        QVERIFY(!m_drawer->hashes.contains({}));
    }

    void olderCost_isRenewedAtSignIn()
    {
        const QByteArray before = m_drawer->hashes[anna];
        SignIn stronger = over(*m_drawer, {.passes = 2, .memoryBytes = 16384});
        QCOMPARE(stronger.tryPin(anna, pinOf("000001"), noon)->outcome, Outcome::Wrong);
        QCOMPARE(m_drawer->hashes[anna], before); // a wrong PIN is never hashed into the store
        QCOMPARE(stronger.tryPin(anna, pinOf("481957"), noon)->outcome, Outcome::SignedIn);
        QVERIFY(m_drawer->hashes[anna].contains("m=16,t=2"));
        QCOMPARE(stronger.tryPin(anna, pinOf("481957"), noon)->outcome, Outcome::SignedIn);
    }

    void olderCost_signsInEvenWhenRenewingFails()
    {
        SignIn stronger = over(*m_drawer, {.passes = 2, .memoryBytes = 16384});
        m_drawer->writingFails = true;
        QCOMPARE(stronger.tryPin(anna, pinOf("481957"), noon)->outcome, Outcome::SignedIn);
    }

    void storeAway_nobodySignsIn()
    {
        SignIn signIn = over(*m_drawer);
        m_drawer->readingFails = true;
        QCOMPARE(signIn.tryPin(anna, pinOf("481957"), noon).error(), AccessError::StoreAway);
        QCOMPARE(signIn.standing(anna, noon).error(), AccessError::StoreAway);
        QCOMPARE(signIn.personOfBadge(QStringLiteral("7")).error(), AccessError::StoreAway);
        m_drawer->readingFails = false;
        // A failure that cannot be counted is not answered either. That a kiosk counts it all the
        // same, so that the answers are no free guesses, is tst_heldmarks'.
        m_drawer->writingFails = true;
        QCOMPARE(signIn.tryPin(anna, pinOf("000001"), noon).error(), AccessError::StoreAway);
        QCOMPARE(signIn.setPin(anna, pinOf("730284")).error(), AccessError::StoreAway);
    }

    void damagedHash_isToldAndNotCounted()
    {
        m_drawer->hashes[anna] = "scribble";
        const auto answer = over(*m_drawer).tryPin(anna, pinOf("481957"), noon);
        QVERIFY(!answer);
        QCOMPARE(answer.error(), AccessError::HashDamaged);
        QVERIFY(m_drawer->book[anna].empty());
    }

    void badge_namesThePersonOnly()
    {
        m_drawer->badges[QStringLiteral("A17")] = anna;
        SignIn signIn = over(*m_drawer);
        QCOMPARE(signIn.personOfBadge(QStringLiteral("A17")).value(), std::optional(anna));
        QCOMPARE(signIn.personOfBadge(QStringLiteral("A18")).value(), std::nullopt);
    }

    void answerWords_data()
    {
        QTest::addColumn<SignInAnswer>("answer");
        QTest::addColumn<QString>("part");
        const auto row = [](const char* name, SignInAnswer answer, const char* part) {
            QTest::newRow(name) << answer << QString::fromUtf8(part);
        };
        row("in", {.outcome = Outcome::SignedIn}, "Signed in");
        row("wrong", {.outcome = Outcome::Wrong}, "Try again.");
        row("wrong with wait", {.outcome = Outcome::Wrong, .wait = 29'001ms}, "in 30 s");
        row("waiting long", {.outcome = Outcome::Waiting, .wait = 14min + 1s}, "in 15 min");
        row("locked", {.outcome = Outcome::Locked}, "manager");
    }

    void answerWords()
    {
        QFETCH(SignInAnswer, answer);
        QFETCH(QString, part);
        QVERIFY2(ramplight::words(answer).contains(part), qPrintable(ramplight::words(answer)));
    }

    void everyErrorHasItsOwnWords()
    {
        std::set<QString> seen;
        for (int i = 0; i <= static_cast<int>(AccessError::StoreAway); ++i) {
            const QString text = ramplight::words(static_cast<AccessError>(i));
            QVERIFY2(text.endsWith(u'.'), qPrintable(QString::number(i)));
            QVERIFY2(seen.insert(text).second, qPrintable(text));
        }
    }

private:
    std::unique_ptr<Drawer> m_drawer;
};

RAMPLIGHT_TEST(QCoreApplication, TestSignIn)
#include "tst_signin.moc"
