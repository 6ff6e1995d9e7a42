// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/secret.h"
#include "support/testmain.h"

#include <QTest>

#include <algorithm>
#include <concepts>
#include <memory>
#include <sstream>
#include <type_traits>
#include <utility>

using namespace ramplight;

namespace {

template <class Stream>
concept PrintsSecrets = requires(Stream stream, const Secret& secret)
{
    stream << secret;
};

static_assert(!PrintsSecrets<QDebug>);
static_assert(!PrintsSecrets<std::ostringstream&>);
static_assert(!std::is_copy_constructible_v<Secret> && !std::is_copy_assignable_v<Secret>);
static_assert(std::is_nothrow_move_constructible_v<Secret>);

/// What a move leaves is the subject here, so the analyzer's rule does not hold.
bool isWiped(const Secret& secret)
{
    const unsigned char* bytes = secret.data(); // NOLINT(clang-analyzer-cplusplus.Move)
    return std::all_of(bytes, bytes + Secret::capacity, [](unsigned char c) { return c == 0; }) &&
           secret.isEmpty();
}

} // namespace

class TestSecret : public QObject
{
    Q_OBJECT

private slots:
    void taking_overwritesTheTypedText()
    {
        QString typed = QStringLiteral("48") + QString::number(1957); // not shared, not a literal
        const QChar* letters = typed.constData();
        const Secret secret = Secret::taking(typed);
        QCOMPARE(secret.bytes().toByteArray(), QByteArray("481957"));
        QVERIFY(typed.isEmpty());
        QCOMPARE(typed.constData(), letters); // the same buffer still, so it may be read
        QVERIFY(std::all_of(letters, letters + 6, [](QChar c) { return c.isNull(); }));
    }

    void move_leavesNothingBehind()
    {
        Secret from{QByteArrayView("481957")};
        Secret to = std::move(from);
        QVERIFY(isWiped(from)); // NOLINT(bugprone-use-after-move)
        QCOMPARE(to.bytes().toByteArray(), QByteArray("481957"));

        Secret other{QByteArrayView("777")};
        other = std::move(to);
        QCOMPARE(other.bytes().toByteArray(), QByteArray("481957"));
        QVERIFY(isWiped(to)); // NOLINT(bugprone-use-after-move)
    }

    void destruction_overwritesTheBytes()
    {
        QByteArray ground(sizeof(Secret) + alignof(Secret), '\0');
        void* place = ground.data();
        std::size_t room = static_cast<std::size_t>(ground.size());
        QVERIFY(std::align(alignof(Secret), sizeof(Secret), place, room) != nullptr);
        auto* secret = new (place) Secret(QByteArrayView("481957"));
        QVERIFY(ground.contains("481957"));
        std::destroy_at(secret);
        QVERIFY(!ground.contains("481957"));
        QVERIFY(!ground.contains("4819"));
    }

    void pad_appendsAndChops()
    {
        Secret pin;
        for (const char digit : {'1', '2', '3'})
            pin.append(digit);
        pin.chop();
        QCOMPARE(pin.bytes().toByteArray(), QByteArray("12"));
        QCOMPARE(pin, Secret(QByteArrayView("12"))); // the chopped digit is gone from the buffer
        pin.clear();
        pin.chop();
        QVERIFY(pin.isEmpty());
        for (std::size_t i = 0; i < Secret::capacity + 5; ++i)
            pin.append('9');
        QCOMPARE(pin.size(), Secret::capacity);
    }

    void tooLong_isNotCutToAPrefix()
    {
        QVERIFY(Secret(QByteArray(65, '1')).isEmpty());
        QCOMPARE(Secret(QByteArray(64, '1')).size(), std::size_t{64});
    }

    void equality_comparesLengthAndBytes()
    {
        const Secret a{QByteArrayView("481957")};
        QVERIFY(a == a.clone());
        QVERIFY(!(a == Secret(QByteArrayView("481958"))));
        QVERIFY(!(a == Secret(QByteArrayView("48195"))));
        QVERIFY(!(Secret() == Secret(QByteArrayView("\0", 1))));
    }

    void random_differsEachTime()
    {
        const Secret a = Secret::random(32);
        QCOMPARE(a.size(), std::size_t{32});
        QVERIFY(!(a == Secret::random(32)));
        QVERIFY(Secret::random(65).isEmpty());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestSecret)
#include "tst_secret.moc"
