// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"
#include "support/testmain.h"

#include <QSignalSpy>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const CarId first{QStringLiteral("first")};
const CarId second{QStringLiteral("second")};

} // namespace

// Who changes what, and how the others hear of it.
class TestChangeFeed : public QObject
{
    Q_OBJECT

private slots:
    void ownAppend_isToldAtOnce_data() { addKinds(); }

    void ownAppend_isToldAtOnce()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        QVERIFY(store->feed().start());
        QSignalSpy cars(&store->feed(), &ChangeFeed::changed);
        QSignalSpy site(&store->feed(), &ChangeFeed::siteChanged);
        Hand hand(store->ledger());
        QCOMPARE(outcome(store->ledger().append(
                     hand.with({{first, {Hand::arrival("A1"), Hand::opened(1)}},
                                {second, {Hand::arrival("A2")}}}))),
                 QStringLiteral("ok"));
        QCOMPARE(cars.size(), 1);
        QCOMPARE(cars.front().front().toStringList(), (QStringList{"first", "second"}));
        QCOMPARE(site.size(), 0);
    }

    void otherProgramsAppend_isTold_data() { addKinds(); }

    void otherProgramsAppend_isTold()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto here = database.open();
        const auto there = database.open();
        Hand hand(there->ledger());
        QCOMPARE(outcome(there->ledger().append(hand.with(first, {Hand::arrival("A1")}))),
                 QStringLiteral("ok"));
        QVERIFY(here->feed().start());
        QSignalSpy cars(&here->feed(), &ChangeFeed::changed);
        QCOMPARE(outcome(there->ledger().append(hand.with(second, {Hand::arrival("A2")}))),
                 QStringLiteral("ok"));
        QVERIFY(cars.wait());
        // Only what is new: the first car was there when the feed started.
        QCOMPARE(cars.front().front().toStringList(), QStringList{"second"});
        QCOMPARE(here->ledger().car(second).value().seq, 1);
    }

    void site_changed_isToldApart_data() { addKinds(); }

    void site_changed_isToldApart()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        QVERIFY(store->feed().start());
        QSignalSpy cars(&store->feed(), &ChangeFeed::changed);
        QSignalSpy site(&store->feed(), &ChangeFeed::siteChanged);
        Hand hand(store->ledger());
        QCOMPARE(outcome(store->ledger().append(
                     hand.withSite({PersonAdded{PersonId{1}, {}, {Right::Manage}}}))),
                 QStringLiteral("ok"));
        QCOMPARE(site.size(), 1);
        QCOMPARE(cars.size(), 0);
        // Other rules word every card anew.
        QCOMPARE(outcome(store->ledger().append(hand.withSite({HouseRulesSet{}}))),
                 QStringLiteral("ok"));
        QCOMPARE(site.size(), 2);
        QCOMPARE(cars.size(), 1);
        QVERIFY(cars.front().front().toStringList().isEmpty());
    }

    void refusedAppend_isNotTold_data() { addKinds(); }

    void refusedAppend_isNotTold()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        Hand hand(store->ledger());
        const Append arrival = hand.with(first, {Hand::arrival("A1")});
        QCOMPARE(outcome(store->ledger().append(arrival)), QStringLiteral("ok"));
        QVERIFY(store->feed().start());
        QSignalSpy cars(&store->feed(), &ChangeFeed::changed);
        QCOMPARE(outcome(store->ledger().append(arrival)), QStringLiteral("conflict"));
        QCOMPARE(cars.size(), 0);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestChangeFeed)
#include "tst_changefeed.moc"
