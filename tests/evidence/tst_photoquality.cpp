// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photoquality.h"

#include "evidence/photodecoder.h"
#include "evidence/photolikeness.h"
#include "samples.h"
#include "scenes.h"
#include "support/testmain.h"

#include <QPainter>
#include <QTest>

#include <set>

using namespace ramplight;
using Warnings = std::vector<PhotoWarning>;

namespace {

QImage filled(QColor colour)
{
    QImage image(400, 300, QImage::Format_RGB32);
    image.fill(colour);
    return image;
}

/// As out of focus: made small and large again.
QImage blurred(const QImage& image)
{
    return image.scaled(image.size() / 24, Qt::IgnoreAspectRatio, Qt::SmoothTransformation)
        .scaled(image.size(), Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
}

/// Every pixel taken to a share of its light.
QImage dimmed(QImage image, int percent)
{
    QPainter painter(&image);
    painter.fillRect(image.rect(), QColor(0, 0, 0, 255 - 255 * percent / 100));
    return image;
}

QImage washed(QImage image, int percent)
{
    QPainter painter(&image);
    painter.fillRect(image.rect(), QColor(255, 255, 255, 255 * percent / 100));
    return image;
}

} // namespace

class TestPhotoQuality : public QObject
{
    Q_OBJECT

private slots:
    void warnings_data()
    {
        QTest::addColumn<QImage>("image");
        QTest::addColumn<Warnings>("warnings");
        using enum PhotoWarning;
        const QImage panel = samples::panel({1600, 1200});
        QTest::newRow("good") << panel << Warnings{};
        QTest::newRow("good and small") << samples::panel({320, 240}) << Warnings{};
        QTest::newRow("good, grey")
            << panel.convertToFormat(QImage::Format_Grayscale8) << Warnings{};
        QTest::newRow("a little dim") << dimmed(panel, 50) << Warnings{};
        QTest::newRow("black") << filled(Qt::black) << Warnings{TooDark};
        QTest::newRow("night") << dimmed(panel, 8) << Warnings{TooDark};
        QTest::newRow("white") << filled(Qt::white) << Warnings{TooBright};
        QTest::newRow("into the lamp") << washed(panel, 97) << Warnings{TooBright};
        QTest::newRow("out of focus") << blurred(panel) << Warnings{Blurred};
        QTest::newRow("flat panel") << filled(QColor(120, 90, 60)) << Warnings{Blurred};
        QTest::newRow("one pixel") << filled(Qt::gray).copy(0, 0, 1, 1) << Warnings{Blurred};
        QTest::newRow("empty") << QImage() << Warnings{};
    }

    void warnings()
    {
        QFETCH(QImage, image);
        QFETCH(Warnings, warnings);
        const PhotoQuality quality = judgePhoto(image);
        QVERIFY2(quality.warnings == warnings,
                 qPrintable(QStringLiteral("dark %1 bright %2 sharp %3")
                                .arg(quality.darkPercent)
                                .arg(quality.brightPercent)
                                .arg(quality.sharpness)));
    }

    void likeness_data()
    {
        QTest::addColumn<QImage>("one");
        QTest::addColumn<QImage>("other");
        QTest::addColumn<bool>("same");
        using samples::Thing;
        const auto row = [](const char* what, int number, const QImage& one, const QImage& other,
                            bool same) {
            QTest::addRow("%s, %d", what, number) << one << other << same;
        };
        for (int number = 1; number <= 5; ++number)
            for (const Thing thing : {Thing::Wheel, Thing::Door, Thing::Paint}) {
                const auto shot = [&](const samples::Shot& how) {
                    return samples::photographed(thing, number, how);
                };
                const QImage first = shot({});
                row("itself", number, first, first, true);
                row("saved again", number, first, decodePhoto(samples::jpeg(first, 70)).value(),
                    true);
                row("made smaller", number, first,
                    first.scaled(320, 240, Qt::KeepAspectRatio, Qt::SmoothTransformation), true);
                row("a second touch of the shutter", number, first, shot({.grain = 7}), true);
                row("the lamp dimmer", number, first, shot({.gain = 0.85, .grain = 3}), true);
                row("from elsewhere", number, first,
                    shot({.scale = 1.05, .degrees = 2, .right = 0.05, .grain = 3}), false);
                row("another of its kind", number, first,
                    samples::photographed(thing, number + 100, {}), false);
                row("turned", number, first, first.transformed(QTransform().rotate(90)), false);
                row("upside down", number, first, first.mirrored(true, true), false);
                // What the work was about is gone: the picture that is wanted.
                if (thing != Thing::Paint)
                    row("repaired", number, first, shot({.repaired = true, .grain = 5}), false);
            }
        const QImage panel = samples::photographed(Thing::Door, 1, {.repaired = true});
        QImage scratched = panel;
        QPainter painter(&scratched);
        painter.setPen(QPen(QColor(240, 240, 240), 2));
        painter.drawLine(300, 200, 380, 230);
        painter.end();
        row("a scratch of an eighth", 0, scratched, panel, false);
        row("nothing", 0, QImage(), panel, false);
        row("nothing twice", 0, QImage(), QImage(), false);
        row("one pixel", 0, panel.copy(0, 0, 1, 1), panel, false);
        row("a dark panel and a light one", 0, filled(Qt::darkBlue), filled(Qt::lightGray), false);
        row("black twice", 0, filled(Qt::black), filled(Qt::black), true);
    }

    void likeness()
    {
        QFETCH(QImage, one);
        QFETCH(QImage, other);
        QFETCH(bool, same);
        const auto thumbnail = [](const QImage& image) {
            return image.isNull()
                       ? image
                       : image.scaled(160, 160, Qt::KeepAspectRatio, Qt::SmoothTransformation);
        };
        const double whole = unlikeness(smallGrey(one), smallGrey(other));
        QVERIFY2((whole <= almostSame) == same, qPrintable(QString::number(whole)));
        const double small = unlikeness(smallGrey(thumbnail(one)), smallGrey(thumbnail(other)));
        QVERIFY2((small <= almostSame) == same, qPrintable(QString::number(small)));
    }

    void rules_areSettings()
    {
        const QImage panel = samples::panel({1600, 1200});
        QCOMPARE(judgePhoto(panel, {.sharpness = 1e9}).warnings, Warnings{PhotoWarning::Blurred});
        QCOMPARE(judgePhoto(filled(Qt::black), {.darkLuma = 0, .sharpness = 0}).warnings,
                 Warnings{});
    }

    void words_areDifferent()
    {
        using enum PhotoWarning;
        std::set<QString> seen;
        for (const PhotoWarning warning : {TooDark, TooBright, Blurred, AlmostSame})
            seen.insert(words(warning));
        QCOMPARE(seen.size(), std::size_t{4});
        QVERIFY(!seen.contains(QString()));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestPhotoQuality)
#include "tst_photoquality.moc"
