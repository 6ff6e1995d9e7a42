// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/pinhasher.h"

#include "pins.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr PersonId bert{4};

PinHasher hasherWith(char pepper, PinCost cost = cheap)
{
    return PinHasher(Secret(QByteArray(32, pepper)), cost);
}

} // namespace

class TestPinHasher : public QObject
{
    Q_OBJECT

private slots:
    void hash_isArgon2idWithItsOwnSalt()
    {
        const PinHasher hasher = hasherWith('p');
        const auto first = hasher.hash(anna, pinOf("481957"));
        const auto second = hasher.hash(anna, pinOf("481957"));
        QVERIFY(first && second);
        QVERIFY(first->startsWith("$argon2id$v=19$m=8,t=1,p=1$"));
        QVERIFY(*first != *second);
        QVERIFY(!first->contains("481957"));
    }

    void defaultCost_isTwoPassesOver64MiB()
    {
        const auto kept = hasherWith('p', {}).hash(anna, pinOf("481957"));
        QVERIFY(kept);
        QVERIFY(kept->startsWith("$argon2id$v=19$m=65536,t=2,p=1$"));
    }

    void verify_data()
    {
        QTest::addColumn<char>("pepper");
        QTest::addColumn<int>("person");
        QTest::addColumn<QByteArray>("pin");
        QTest::addColumn<bool>("right");
        QTest::newRow("the PIN") << 'p' << anna.value << QByteArray("481957") << true;
        QTest::newRow("another PIN") << 'p' << anna.value << QByteArray("481958") << false;
        QTest::newRow("beginning of the PIN") << 'p' << anna.value << QByteArray("48195") << false;
        QTest::newRow("no PIN") << 'p' << anna.value << QByteArray() << false;
        QTest::newRow("under another person") << 'p' << bert.value << QByteArray("481957") << false;
        QTest::newRow("with another pepper") << 'q' << anna.value << QByteArray("481957") << false;
    }

    void verify()
    {
        QFETCH(char, pepper);
        QFETCH(int, person);
        QFETCH(QByteArray, pin);
        QFETCH(bool, right);
        const auto kept = hasherWith('p').hash(anna, pinOf("481957"));
        QVERIFY(kept);
        const auto answer = hasherWith(pepper).verify(PersonId{person}, Secret(pin), *kept);
        QCOMPARE(answer.has_value(), right);
        if (!right)
            QCOMPARE(answer.error(), AccessError::WrongPin);
    }

    void verify_keptTextIsNoHash_data()
    {
        QTest::addColumn<QByteArray>("kept");
        QTest::newRow("nothing") << QByteArray();
        QTest::newRow("words") << QByteArray("not a hash");
        QTest::newRow("another function") << QByteArray("$2b$12$abcdefghijklmnopqrstuv");
        QTest::newRow("cut") << QByteArray("$argon2id$v=19$m=8,t=1,p=1$c2FsdHNhbHQ");
        QTest::newRow("longer than any hash") << QByteArray(200, 'a');
    }

    void verify_keptTextIsNoHash()
    {
        QFETCH(QByteArray, kept);
        const auto answer = hasherWith('p').verify(anna, pinOf("481957"), kept);
        QVERIFY(!answer);
        QCOMPARE(answer.error(), AccessError::HashDamaged);
        QVERIFY(!hasherWith('p').needsRehash(kept));
    }

    void needsRehash_afterAChangeOfCost()
    {
        const PinHasher stronger = hasherWith('p', {.passes = 2, .memoryBytes = 16384});
        const auto kept = hasherWith('p').hash(anna, pinOf("481957"));
        QVERIFY(kept);
        QVERIFY(!hasherWith('p').needsRehash(*kept));
        QVERIFY(stronger.needsRehash(*kept));
        QVERIFY(stronger.verify(anna, pinOf("481957"), *kept)); // an older cost stays good
    }

    void hash_costOutOfRange()
    {
        const auto kept =
            hasherWith('p', {.passes = 1, .memoryBytes = 1024}).hash(anna, pinOf("481957"));
        QVERIFY(!kept);
        QCOMPARE(kept.error(), AccessError::HashingFailed);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestPinHasher)
#include "tst_pinhasher.moc"
