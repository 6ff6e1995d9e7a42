// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/scanreader.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using Kind = ScanAnswer::Kind;

namespace {

/// The keys of a text and Enter, gapMs apart, the first at startMs; the last answer.
ScanAnswer burst(ScanReader& reader, const QString& text, qint64 startMs, qint64 gapMs)
{
    qint64 at = startMs;
    for (const QChar c : text) {
        ScanAnswer answer = reader.feed(c, at);
        if (answer.kind != Kind::Held)
            return answer;
        at += gapMs;
    }
    return reader.feed(QStringLiteral("\r"), at);
}

ScanAnswer typing(int release)
{
    return {.kind = Kind::Typing, .release = release, .scan = ScanKind::Unknown, .payload = {}};
}

} // namespace

class TestScanReader : public QObject
{
    Q_OBJECT

private slots:
    void scan_data()
    {
        QTest::addColumn<QString>("text");
        QTest::addColumn<ScanKind>("kind");
        QTest::addColumn<QString>("payload");
        const auto row = [](const char* name, const char* text, ScanKind kind,
                            const char* payload) {
            QTest::newRow(name) << QString::fromUtf8(text) << kind << QString::fromUtf8(payload);
        };
        row("badge", "RLB-A17", ScanKind::Badge, "A17");
        row("badge, caps lock on", "rlb-a17", ScanKind::Badge, "A17");
        row("badge with hyphen", "RLB-2-0041", ScanKind::Badge, "2-0041");
        row("badge without code", "RLB-", ScanKind::Unknown, "RLB-");
        row("badge with a letter whose capitals are two", "RLB-Aß", ScanKind::Unknown, "RLB-Aß");
        row("badge with a letter whose capital is another's", "RLB-ſı7", ScanKind::Unknown,
            "RLB-ſı7");
        row("badge with a blank in it", "RLB-A 7", ScanKind::Unknown, "RLB-A 7");
        row("car label", "RLC-S1042", ScanKind::CarLabel, "S1042");
        row("car label, seventeen long", "RLC-1234567890123", ScanKind::CarLabel, "1234567890123");
        row("wheel tag", "RLW-FL-RL-2041", ScanKind::WheelTag, "FL-RL-2041");
        row("wheel tag without code", "RLW-", ScanKind::Unknown, "RLW-");
        row("VIN", "ZZZDM00P0X0000017", ScanKind::Vin, "ZZZDM00P0X0000017");
        row("VIN in small letters", "zzzdm00p0x0000017", ScanKind::Vin, "ZZZDM00P0X0000017");
        row("VIN behind an I", "IZZZDM00P0X0000017", ScanKind::Vin, "ZZZDM00P0X0000017");
        row("VIN with blanks around", " ZZZDM00P0X0000017 ", ScanKind::Vin, "ZZZDM00P0X0000017");
        row("sixteen characters", "ZZZDM00P0X000001", ScanKind::Unknown, "ZZZDM00P0X000001");
        row("eighteen characters", "ZZZDM00P0X00000179", ScanKind::Unknown, "ZZZDM00P0X00000179");
        row("with I", "ZZZDM00P0XI000017", ScanKind::Unknown, "ZZZDM00P0XI000017");
        row("with O", "ZZZDM00P0XO000017", ScanKind::Unknown, "ZZZDM00P0XO000017");
        row("with Q", "ZZZDM00P0XQ000017", ScanKind::Unknown, "ZZZDM00P0XQ000017");
        row("seventeen with a hyphen", "ZZZDM00P0X-000017", ScanKind::Unknown, "ZZZDM00P0X-000017");
        row("parts label", "4006381333931", ScanKind::Unknown, "4006381333931");
        row("unknown keeps its case", "abcd", ScanKind::Unknown, "abcd");
    }

    void scan()
    {
        QFETCH(QString, text);
        QFETCH(ScanKind, kind);
        QFETCH(QString, payload);
        ScanReader reader;
        const ScanAnswer answer = burst(reader, text, 1000, 8);
        QCOMPARE(answer.kind, Kind::Scan);
        QCOMPARE(answer.scan, kind);
        QCOMPARE(answer.payload, payload);
        QCOMPARE(reader.held(), 0);
    }

    void gap_data()
    {
        QTest::addColumn<qint64>("gapMs");
        QTest::addColumn<bool>("isScan");
        QTest::newRow("same millisecond") << qint64{0} << true;
        QTest::newRow("10 ms") << qint64{10} << true;
        QTest::newRow("49 ms") << qint64{49} << true;
        QTest::newRow("50 ms") << qint64{50} << false;
        QTest::newRow("200 ms") << qint64{200} << false;
        QTest::newRow("times run backwards") << qint64{-5} << false;
    }

    void gap()
    {
        QFETCH(qint64, gapMs);
        QFETCH(bool, isScan);
        ScanReader reader;
        QCOMPARE(burst(reader, QStringLiteral("RLB-A17"), 1000, gapMs).kind,
                 isScan ? Kind::Scan : Kind::Typing);
    }

    void typedWord_isReleasedKeyByKey()
    {
        ScanReader reader;
        QCOMPARE(reader.feed(QStringLiteral("a"), 0), ScanAnswer{});
        QCOMPARE(reader.feed(QStringLiteral("b"), 150), typing(1)); // the a; the b is held
        QCOMPARE(reader.held(), 1);
        QCOMPARE(reader.idle(190), ScanAnswer{});
        QCOMPARE(reader.idle(200), typing(1));
        QCOMPARE(reader.idle(300), ScanAnswer{});
        QCOMPARE(reader.held(), 0);
    }

    void shortBurst_isTyping()
    {
        ScanReader reader;
        QCOMPARE(burst(reader, QStringLiteral("123"), 0, 10), typing(4));
        QCOMPARE(burst(reader, QStringLiteral("1234"), 1000, 10).kind, Kind::Scan);
    }

    void enterAlone_isTyping()
    {
        ScanReader reader;
        QCOMPARE(reader.feed(QStringLiteral("\r"), 0), typing(1));
        QCOMPARE(reader.feed(QStringLiteral("\n"), 10), typing(1));
    }

    void enterTooLate_isTyping()
    {
        ScanReader reader;
        for (qint64 i = 0; i < 6; ++i)
            QCOMPARE(reader.feed(QString::number(i), i * 10), ScanAnswer{});
        QCOMPARE(reader.feed(QStringLiteral("\r"), 100), typing(7));
    }

    void onePause_breaksTheBurst()
    {
        ScanReader reader;
        for (qint64 i = 0; i < 6; ++i)
            QCOMPARE(reader.feed(QString::number(i), i * 10), ScanAnswer{});
        QCOMPARE(reader.feed(QStringLiteral("7"), 120), typing(6));
        QCOMPARE(burst(reader, QStringLiteral("89"), 130, 10), typing(4));
    }

    void otherKeys_areTyping_data()
    {
        QTest::addColumn<QString>("keyText");
        QTest::newRow("arrow") << QString();
        QTest::newRow("backspace") << QStringLiteral("\b");
        QTest::newRow("tab") << QStringLiteral("\t");
        QTest::newRow("escape") << QString(QChar(27));
        QTest::newRow("two letters of an input method") << QStringLiteral("ab");
    }

    void otherKeys_areTyping()
    {
        QFETCH(QString, keyText);
        ScanReader reader;
        QCOMPARE(reader.feed(QStringLiteral("a"), 0), ScanAnswer{});
        QCOMPARE(reader.feed(QStringLiteral("b"), 10), ScanAnswer{});
        QCOMPARE(reader.feed(keyText, 20), typing(3));
        QCOMPARE(reader.held(), 0);
    }

    void typedThenScanned()
    {
        ScanReader reader;
        QCOMPARE(reader.feed(QStringLiteral("x"), 0), ScanAnswer{});
        QCOMPARE(reader.feed(QStringLiteral("R"), 500), typing(1)); // x is handed on
        const ScanAnswer answer = burst(reader, QStringLiteral("LB-A17"), 510, 10);
        QCOMPARE(answer.scan, ScanKind::Badge);
        QCOMPARE(answer.payload, QStringLiteral("A17"));
    }

    void twoScansInARow()
    {
        ScanReader reader;
        QCOMPARE(burst(reader, QStringLiteral("RLB-A17"), 0, 5).scan, ScanKind::Badge);
        QCOMPARE(burst(reader, QStringLiteral("RLC-S1042"), 45, 5).scan, ScanKind::CarLabel);
    }

    void longestScan()
    {
        ScanReader reader;
        QCOMPARE(burst(reader, QString(128, u'7'), 0, 5).kind, Kind::Scan);
    }

    void longerThanAnyScan_isTypingToItsEnd()
    {
        ScanReader reader;
        qint64 at = 0;
        for (int i = 0; i < 128; ++i, at += 5)
            QCOMPARE(reader.feed(QStringLiteral("7"), at), ScanAnswer{});
        QCOMPARE(reader.feed(QStringLiteral("7"), at), typing(129));
        for (int i = 0; i < 20; ++i) {
            at += 5;
            QCOMPARE(reader.feed(QStringLiteral("7"), at), typing(1));
        }
        at += 5;
        QCOMPARE(reader.feed(QStringLiteral("\r"), at), typing(1));
        // After a pause the next scan counts again.
        QCOMPARE(burst(reader, QStringLiteral("RLB-A17"), at + 500, 5).scan, ScanKind::Badge);
    }

    void carLabelCode_isWhatAScanReadsBack_data()
    {
        QTest::addColumn<QString>("stockNumber");
        QTest::addColumn<QString>("vin");
        QTest::addColumn<QString>("code");
        const QString vin = QStringLiteral("WZ9SKERRY00012345");
        QTest::newRow("stock number") << "RL-2041" << vin << "RLC-RL-2041";
        QTest::newRow("small letters") << "rl-2041" << vin << "RLC-RL-2041";
        QTest::newRow("a blank in it: the VIN") << "RL 2041" << vin << vin;
        QTest::newRow("beyond ASCII: the VIN") << QString::fromUtf8("\u00dc1") << vin << vin;
        QTest::newRow("capitals that are another's: the VIN")
            << QString::fromUtf8("RL-\u00df1") << vin << vin;
        QTest::newRow("neither") << "RL 2041"
                                 << "12 345" << QString();
        QTest::newRow("longer than a scan") << QString(200, u'7') << QString() << QString();
    }

    void carLabelCode_isWhatAScanReadsBack()
    {
        QFETCH(const QString, stockNumber);
        QFETCH(const QString, vin);
        QFETCH(const QString, code);
        QCOMPARE(carLabelCode({}, stockNumber, vin), code);
        if (!code.isEmpty())
            QVERIFY(classifyScan({}, code).scan != ScanKind::Unknown);
    }

    void ownPrefixes()
    {
        const ScanRules rules{.badgePrefix = QStringLiteral("P/"),
                              .carPrefix = QStringLiteral("K/")};
        QCOMPARE(classifyScan(rules, QStringLiteral("p/12")).scan, ScanKind::Badge);
        QCOMPARE(classifyScan(rules, QStringLiteral("K/12")).scan, ScanKind::CarLabel);
        QCOMPARE(classifyScan(rules, QStringLiteral("RLB-12")).scan, ScanKind::Unknown);
        // An empty prefix switches a kind off rather than taking everything.
        QCOMPARE(classifyScan({.badgePrefix = QString()}, QStringLiteral("12345")).scan,
                 ScanKind::Unknown);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestScanReader)
#include "tst_scanreader.moc"
