// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/ask.h"
#include "support/testmain.h"

#include <QPromise>
#include <QSignalSpy>
#include <QTest>

namespace ramplight {

namespace {

using Result = tl::expected<int, Failure>;

/// Answers when the test says so.
struct Slow
{
    QPromise<Result> promise;
    int sent = 0;

    Answer<int> send()
    {
        ++sent;
        promise = QPromise<Result>();
        promise.start();
        return promise.future();
    }
    void answer(Result result)
    {
        promise.addResult(std::move(result));
        promise.finish();
    }
};

} // namespace

class TestAsk : public QObject
{
    Q_OBJECT

private slots:
    void success_callsThenAndSaysDone();
    void secondTap_whileBusy_isIgnored();
    void anotherAction_whileBusy_waitsForItsTurn();
    void anotherAction_afterAFailure_isDropped();
    void refusal_isToldAndIsNoRetry();
    void storeFailure_canBeTriedAgain();
    void dismiss_takesTheWordsAway();
    void goneBeforeTheAnswer_isNotCalled();
    void commandIds_differ();
};

void TestAsk::success_callsThenAndSaysDone()
{
    Ask ask;
    Slow slow;
    int got = 0;
    const QSignalSpy done(&ask, &Ask::done);
    ask.send<int>(
        QStringLiteral("count"), [&] { return slow.send(); },
        [&](const int& value) { got = value; });
    QVERIFY(ask.busy());
    slow.answer(7);
    QTRY_VERIFY(!ask.busy());
    QCOMPARE(got, 7);
    QVERIFY(!ask.refused());
    QCOMPARE(done.count(), 1);
    QCOMPARE(done.first().first().toString(), QStringLiteral("count"));
}

void TestAsk::secondTap_whileBusy_isIgnored()
{
    Ask ask;
    Slow slow;
    const auto send = [&] { ask.send<int>({}, [&] { return slow.send(); }, {}); };
    send();
    send();
    QCOMPARE(slow.sent, 1);
    slow.answer(1);
    QTRY_VERIFY(!ask.busy());
    send();
    QCOMPARE(slow.sent, 2);
}

void TestAsk::anotherAction_whileBusy_waitsForItsTurn()
{
    Ask ask;
    Slow first;
    Slow second;
    const QSignalSpy done(&ask, &Ask::done);
    ask.send<int>(QStringLiteral("reading"), [&] { return first.send(); }, {});
    ask.send<int>(QStringLiteral("photo"), [&] { return second.send(); }, {});
    QCOMPARE(second.sent, 0);
    first.answer(1);
    QTRY_COMPARE(second.sent, 1);
    second.answer(2);
    QTRY_COMPARE(done.count(), 2);
    QCOMPARE(done.last().first().toString(), QStringLiteral("photo"));
    QVERIFY(!ask.busy());
}

void TestAsk::anotherAction_afterAFailure_isDropped()
{
    Ask ask;
    Slow first;
    Slow second;
    ask.send<int>(QStringLiteral("reading"), [&] { return first.send(); }, {});
    ask.send<int>(QStringLiteral("sign-off"), [&] { return second.send(); }, {});
    first.answer(tl::unexpected(Failure(Refusal{RefusalId::NotRunning, {}})));
    QTRY_VERIFY(ask.refused());
    QVERIFY(!ask.busy());
    QCOMPARE(second.sent, 0);
}

void TestAsk::refusal_isToldAndIsNoRetry()
{
    Ask ask;
    Slow slow;
    const QSignalSpy refused(&ask, &Ask::refusedWith);
    ask.send<int>(QStringLiteral("release"), [&] { return slow.send(); }, {});
    const Refusal refusal{RefusalId::CarHeld, {QStringLiteral("first"), QStringLiteral("second")}};
    slow.answer(tl::unexpected<Failure>(refusal));
    QTRY_VERIFY(ask.refused());
    QCOMPARE(ask.refusalId(), idText(RefusalId::CarHeld));
    QCOMPARE(ask.words(), words(refusal));
    QCOMPARE(ask.details(), refusal.details);
    QVERIFY(!ask.canRetry());
    QCOMPARE(refused.count(), 1);
    ask.retry();
    QCOMPARE(slow.sent, 1);
}

void TestAsk::storeFailure_canBeTriedAgain()
{
    Ask ask;
    Slow slow;
    int got = 0;
    ask.send<int>(
        {}, [&] { return slow.send(); }, [&](const int& value) { got = value; });
    const StoreError away{StoreErrorKind::Unavailable, QStringLiteral("away")};
    slow.answer(tl::unexpected<Failure>(away));
    QTRY_VERIFY(ask.canRetry());
    QCOMPARE(ask.refusalId(), QStringLiteral("store"));
    QCOMPARE(ask.words(), QStringLiteral("away"));
    ask.retry();
    QCOMPARE(slow.sent, 2);
    QVERIFY(ask.busy());
    QVERIFY(!ask.refused());
    slow.answer(3);
    QTRY_COMPARE(got, 3);
}

void TestAsk::dismiss_takesTheWordsAway()
{
    Ask ask;
    ask.refuse(QStringLiteral("x"), QStringLiteral("y"), QStringLiteral("z"));
    QVERIFY(ask.refused());
    ask.dismiss();
    QVERIFY(!ask.refused());
    QVERIFY(ask.refusalId().isEmpty());
}

void TestAsk::goneBeforeTheAnswer_isNotCalled()
{
    Slow slow;
    bool called = false;
    {
        Ask ask;
        ask.send<int>(
            {}, [&] { return slow.send(); }, [&](const int&) { called = true; });
    }
    slow.answer(1);
    QCoreApplication::processEvents();
    QVERIFY(!called);
}

void TestAsk::commandIds_differ()
{
    QVERIFY(!newCommandId().isEmpty());
    QVERIFY(newCommandId() != newCommandId());
}

} // namespace ramplight

RAMPLIGHT_TEST(QGuiApplication, ramplight::TestAsk)
#include "tst_ask.moc"
