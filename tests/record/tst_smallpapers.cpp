// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "paperfiles.h"
#include "recordbench.h"

#include "record/code128.h"
#include "record/doorsheet.h"
#include "record/tagpdf.h"
#include "support/testmain.h"

#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What hangs in a car and on its wheels while it is in prep.
class TestSmallPapers : public QObject, protected PaperFiles
{
    Q_OBJECT

private slots:
    void code128_patterns_areThoseOfTheStandard()
    {
        // Every character is eleven modules, its bars an even number of them (ISO/IEC 15417, 4.2).
        QSet<QString> seen;
        for (char16_t c = u' '; c <= u'~'; ++c) {
            const std::vector<int> widths = code128(QString(QChar(c)));
            QCOMPARE(widths.size(), std::size_t(3 * 6 + 7));
            for (std::size_t symbol = 0; symbol < 3; ++symbol) {
                QString pattern;
                int modules = 0;
                int bars = 0;
                for (std::size_t i = 0; i < 6; ++i) {
                    const int width = widths.at(symbol * 6 + i);
                    modules += width;
                    bars += i % 2 == 0 ? width : 0;
                    pattern += QString::number(width);
                }
                QCOMPARE(modules, 11);
                QCOMPARE(bars % 2, 0);
                if (symbol == 1)
                    seen.insert(pattern);
            }
        }
        QCOMPARE(seen.size(), 95);
        QVERIFY(code128(QString()).empty());
        QVERIFY(code128(QStringLiteral("Ä")).empty());
        // Worked by hand: start B 104, "A" 33, "B" 34: 104 + 33 + 2 * 34 = 205, which leaves 102.
        const std::vector<int> ab = code128(QStringLiteral("AB"));
        const std::vector<int> check(ab.begin() + 18, ab.begin() + 24);
        QCOMPARE(check, (std::vector<int>{4, 1, 1, 1, 3, 1}));
    }

    void tag_ofAWheel_isOneSmallPage()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const TagModel model =
            tagOf(bench.car(id), at("wheel-front-left"), bench.site().rules, "RLW-");
        QCOMPARE(model.cornerWords, QStringLiteral("Near side front wheel"));
        const auto pdf = renderTagPdf(model);
        QVERIFY2(pdf.has_value(), qPrintable(faultOf(pdf)));
        const QString path = write("tag.pdf", *pdf);
        const QString text = run("pdftotext", {path, "-"}).out;
        QVERIFY2(text.contains("RLW-FL-" + model.tag.stockNumber.toUpper()), qPrintable(text));
        QVERIFY(text.contains("Near side front wheel"));
        // 100 by 60 mm in points.
        const QString info = run("pdfinfo", {path}).out;
        QVERIFY2(info.contains(QRegularExpression("Page size: +283(\\.[0-9]+)? x 170")),
                 qPrintable(info));
        const QImage image = renderTagImage(model, 200);
        keepPicture("tag", image);
        // The bars read back as they were meant, along a line through them.
        const int y = int(image.height() * 0.7);
        TagModel strange = model;
        strange.tag.stockNumber = QStringLiteral("Ü1");
        QVERIFY(!renderTagPdf(strange));
        int dark = 0;
        for (int x = 1; x < image.width(); ++x)
            dark += qGray(image.pixel(x, y)) < 128 && qGray(image.pixel(x - 1, y)) >= 128 ? 1 : 0;
        const auto bars = code128("RLW-" + tagCode(model.tag)).size();
        QCOMPARE(dark, int(bars / 2 + 1));
    }

    void doorSheet_ofACarInPrep_isOnePageWithWhatMatters()
    {
        RecordBench bench;
        const CarId id = bench.bringIn();
        Identity identity = bench.car(id).identity;
        identity.registration = "QK 4471";
        bench.must(bench.manager, id, car::CorrectIdentity{identity, "read off the plate"});
        bench.foundTo(id, "wheel-rear-left", Condition::Kerbed, Remedy::Refurbish);
        bench.start(id, bench.open(id, "wheel-refurb"), bench.wheels);
        const auto model =
            doorSheetOf(bench.car(id), bench.site(), QStringLiteral("RLC-K1"), bench.clock.now());
        QVERIFY2(model.has_value(), qPrintable(faultOf(model)));
        QCOMPARE(model->restraints, QStringList{"Do not move or drive: wheels are off"});
        const auto pdf = renderDoorSheetPdf(*model);
        QVERIFY2(pdf.has_value(), qPrintable(faultOf(pdf)));
        const QString path = write("door.pdf", *pdf);
        const Ran checked = run("qpdf", {"--check", path});
        QVERIFY2(checked.code == 0, qPrintable(checked.out));
        const QString text = run("pdftotext", {"-layout", path, "-"}).out;
        for (const QString& word : QStringList{"NOT FOR SALE", "in preparation", "K1", "QK 4471",
                                               "Halden Skerry", "RLC-K1", "Outstanding"})
            QVERIFY2(text.contains(word), qPrintable(word + ": " + text));
        for (const QString& restraint : model->restraints)
            QVERIFY2(text.simplified().contains(restraint), qPrintable(text));
        const QString info = run("pdfinfo", {path}).out;
        QVERIFY2(info.contains(QRegularExpression("Pages: +1\n")), qPrintable(info));
        QVERIFY2(info.contains("A5"), qPrintable(info));
        keepPicture("door", renderDoorSheetImage(*model, 150));
    }

    void doorSheet_saysThatFirmWorkIsBack_andNoDay()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        const auto note = [&] {
            const auto model =
                doorSheetOf(bench.car(id), bench.site(), "RLC-K1", bench.clock.now());
            for (const DoorSheetLine& line : model->lines)
                if (line.title.startsWith(QStringLiteral("Steering")))
                    return line.note;
            return QStringLiteral("no line");
        };
        bench.must(bench.mechanic, id,
                   car::SendOut{op, {"Cove Steering", QDate(2031, 3, 19), 1, {}, false, {}}});
        QCOMPARE(note(), QStringLiteral("Cove Steering, due Wed 19 Mar 2031"));
        bench.must(bench.mechanic, id, car::ReceiveBack{op, {}, 1});
        QCOMPARE(note(), QStringLiteral("is back from Cove Steering"));
        bench.prove(id, op, bench.mechanic);
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        QCOMPARE(note(), QStringLiteral("awaits its check"));
    }

    void doorSheet_hasSafetyFirst_andSaysWhatItLeavesOut()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        for (const char* place : {"bonnet", "roof", "wing-left", "wing-right", "tailgate",
                                  "front-door-left", "front-door-right", "rear-door-left"})
            bench.foundTo(id, place, Condition::Chip, Remedy::TouchIn);
        bench.foundTo(id, "wheel-rear-left", Condition::Kerbed, Remedy::Refurbish);
        bench.foundTo(id, "tyre-front-left", Condition::Worn, Remedy::Replace);
        const CarState car = bench.car(id);
        auto model = doorSheetOf(car, bench.site(), QString(), bench.clock.now());
        QVERIFY2(model.has_value(), qPrintable(faultOf(model)));
        QCOMPARE(model->lines.size(), car.openOperations().size());
        QVERIFY(model->safetyCount > 0);
        for (std::size_t i = 0; i < model->lines.size(); ++i)
            QCOMPARE(model->lines[i].safety, int(i) < model->safetyCount);
        model->restraints = {"Do not move: the wheels are off and the car stands on its stands",
                             "Do not drive: the brakes are apart",
                             "Do not power: high voltage is isolated"};
        model->stockNumber = "RL-204177-B";
        for (const DoorSheetLine& more : std::vector(model->lines))
            model->lines.push_back(more);
        const QString text =
            run("pdftotext", {"-layout", write("long.pdf", *renderDoorSheetPdf(*model)), "-"}).out;
        for (const QString& restraint : model->restraints)
            QVERIFY2(text.simplified().contains(restraint), qPrintable(text));
        const QRegularExpressionMatch more =
            QRegularExpression("and ([0-9]+) more, at the kiosk").match(text);
        QVERIFY2(more.hasMatch(), qPrintable(text));
        QVERIFY(text.contains("Type the stock number"));
        QVERIFY2(!text.contains(QChar(0x2026)), qPrintable(text));
        keepPicture("door-long", renderDoorSheetImage(*model, 150));
    }

    // Words that are long run on in the next line; none is cut.
    void doorSheet_saysEveryLineWhole()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        auto model = doorSheetOf(bench.car(id), bench.site(), QString(), bench.clock.now());
        QVERIFY2(model.has_value(), qPrintable(faultOf(model)));
        model->lines.clear();
        for (int i = 1; i <= 7; ++i)
            model->lines.push_back(
                {QStringLiteral(
                     "Off side rear wheel: look for cracks and measure run-out, number %1")
                     .arg(i),
                 QStringLiteral("part: wheel bolts and centre cap, due Thu %1 May 2031").arg(i),
                 i < 5});
        model->safetyCount = 4;
        QString text =
            run("pdftotext", {"-raw", write("whole.pdf", *renderDoorSheetPdf(*model)), "-"}).out;
        text = text.simplified();
        for (const DoorSheetLine& line : model->lines)
            QVERIFY2(text.contains(QStringLiteral("%1 (%2)").arg(line.title, line.note)),
                     qPrintable(text));
        keepPicture("door-whole", renderDoorSheetImage(*model, 150));
    }

    void doorSheet_isForCarsInPrepOnly()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const auto done = doorSheetOf(bench.car(id), bench.site(), "RLC-K1", bench.clock.now());
        QVERIFY2(done.has_value(), qPrintable(faultOf(done)));
        QVERIFY(done->lines.empty());
        QVERIFY2(done->statusWords.contains("releases it to sale"), qPrintable(done->statusWords));
        bench.release(id);
        const auto released = doorSheetOf(bench.car(id), bench.site(), "RLC-K1", bench.clock.now());
        QVERIFY(!released);
        QVERIFY2(released.error().contains("K1 is released"), qPrintable(released.error()));
        const CarId gone = bench.bringIn();
        bench.must(bench.manager, gone, car::LeaveUnreleased{LeavingHow::Trade, "sold to trade"});
        QVERIFY(!doorSheetOf(bench.car(gone), bench.site(), "RLC-K2", bench.clock.now()));
    }
};

RAMPLIGHT_TEST(QGuiApplication, TestSmallPapers)
#include "tst_smallpapers.moc"
