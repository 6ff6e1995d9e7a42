// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "controlbench.h"
#include "support/testmain.h"

#include <QFontDatabase>
#include <QFontMetricsF>
#include <QRawFont>
#include <QTest>

#include <cmath>

using namespace ramplight::test;

namespace {

double luminance(const QColor& colour)
{
    const auto linear = [](double part) {
        return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

/// Contrast ratio as WCAG 2 defines it, 1 to 21.
double contrast(const QColor& one, const QColor& other)
{
    const double a = luminance(one);
    const double b = luminance(other);
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

} // namespace

/// The look: colours, sizes and letters keep what they promise.
class ThemeTest : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_bench = std::make_unique<ControlBench>();
        QVERIFY(m_bench->theme());
    }
    void cleanup() { m_bench.reset(); }

    void coloursStandOut_data()
    {
        QTest::addColumn<bool>("dark");
        QTest::newRow("dark") << true;
        QTest::newRow("light") << false;
    }
    void coloursStandOut()
    {
        QFETCH(bool, dark);
        m_bench->theme()->setProperty("dark", dark);
        struct Row
        {
            const char* front;
            const char* back;
            double least;
        };
        // Words 7:1, parts 3:1 (WCAG 1.4.6 and 1.4.11).
        const Row rows[] = {
            {"groundInk", "ground", 7},
            {"groundInk", "raised", 7},
            {"groundInkMuted", "ground", 7},
            {"groundInkMuted", "raised", 7},
            {"groundAccent", "ground", 7},
            {"ink", "paper", 7},
            {"ink", "sunk", 7},
            {"inkMuted", "paper", 7},
            {"inkMuted", "sunk", 7},
            {"accentInk", "accent", 7},
            {"accentInk", "accentPressed", 7},
            {"accent", "paper", 7},
            {"paper", "ink", 7},
            {"paper", "hazardInk", 7},
            {"hazardInk", "hazard", 7},
            {"groundLine", "ground", 3},
            {"paperLine", "paper", 3},
            {"paperLine", "sunk", 3},
            {"seam", "paper", 3},
            {"seam", "rule", 3},
        };
        for (const Row& row : rows) {
            const QColor front = m_bench->theme()->property(row.front).value<QColor>();
            const QColor back = m_bench->theme()->property(row.back).value<QColor>();
            QVERIFY2(front.isValid() && back.isValid(), row.front);
            const double ratio = contrast(front, back);
            QVERIFY2(ratio >= row.least,
                     qPrintable(QStringLiteral("%1 on %2: %3")
                                    .arg(QLatin1String(row.front), QLatin1String(row.back))
                                    .arg(ratio)));
        }
    }

    void sizesFollowTheScreen()
    {
        m_bench->theme()->setProperty("pxPerMm", 2.7); // 32 inch, 1920 pixels wide
        QCOMPARE(m_bench->theme()->property("touch").toDouble(), 54.0);
        m_bench->theme()->setProperty("pxPerMm", 3.6);
        QCOMPARE(m_bench->theme()->property("touch").toDouble(), 72.0);
        QCOMPARE(m_bench->theme()->property("touchSafety").toDouble(), 90.0);
        QCOMPARE(m_bench->theme()->property("gap").toDouble(), 11.0);
    }

    void figuresAreTabularAndCapitalsAsHighAsPromised()
    {
        const QString family = m_bench->theme()->property("family").toString();
        QCOMPARE(family, QStringLiteral("B612 Ramplight"));
        const double px = 3.6;
        const struct
        {
            const char* size;
            double capital; // mm
        } rows[] = {
            {"distanceSize", 17.5}, {"titleSize", 7}, {"readingSize", 5}, {"detailSize", 3.2}};
        for (const auto& row : rows) {
            QFont font(family);
            font.setPixelSize(m_bench->theme()->property(row.size).toInt());
            const QRawFont raw = QRawFont::fromFont(font);
            QVERIFY2(raw.capHeight() >= row.capital * px - 0.5, row.size);
            const QFontMetricsF metrics(font);
            for (const QChar digit : QStringLiteral("123456789"))
                QCOMPARE(metrics.horizontalAdvance(digit), metrics.horizontalAdvance(u'0'));
        }
    }

private:
    std::unique_ptr<ControlBench> m_bench;
};

RAMPLIGHT_TEST(QGuiApplication, ThemeTest)
#include "tst_theme.moc"
