// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "pagetext.h"
#include "recordbench.h"

#include "domain/carcommands.h"
#include "record/flow.h"
#include "record/papertype.h"
#include "record/recordlayout.h"
#include "record/recordpdf.h"
#include "record/recordwords.h"
#include "support/testmain.h"

#include <QFontDatabase>
#include <QRegularExpression>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

// Pages on which everything has its place, however much there is.
class TestRecordLayout : public QObject
{
    Q_OBJECT

private:
    static void everythingLiesOn(const std::vector<paper::Page>& pages)
    {
        for (const paper::Page& page : pages)
            for (const paper::Item& item : page) {
                if (const auto* text = std::get_if<paper::Text>(&item)) {
                    const double right =
                        text->baseline.x() + paper::widthOf(text->text, text->type);
                    QVERIFY2(text->baseline.x() >= paper::margin - 1 &&
                                 right <= paper::pageWidth - paper::margin + 1,
                             qPrintable(text->text));
                    QVERIFY2(text->baseline.y() > 0 &&
                                 text->baseline.y() < paper::pageHeight - 10 * paper::mm,
                             qPrintable(text->text));
                }
                if (const auto* photo = std::get_if<paper::Photo>(&item))
                    QVERIFY(photo->box.bottom() <= paper::bottom &&
                            photo->box.right() <= paper::pageWidth - paper::margin);
                if (const auto* badge = std::get_if<paper::Badge>(&item))
                    QVERIFY(badge->centre.x() + paper::badgeRadius <=
                            paper::pageWidth - paper::margin + 1);
            }
    }

    static void noHeadingEndsAPage(const std::vector<paper::Page>& pages)
    {
        for (const paper::Page& page : pages) {
            double lowest = 0;
            double heading = 0;
            for (const paper::Item& item : page)
                if (const auto* text = std::get_if<paper::Text>(&item);
                    text != nullptr && text->baseline.y() <= paper::bottom) {
                    lowest = std::max(lowest, text->baseline.y());
                    if (text->type == paper::Type::Heading)
                        heading = std::max(heading, text->baseline.y());
                }
            QVERIFY(heading < lowest);
        }
    }

    static void keepPictures(const RecordModel& model, const QString& folder)
    {
        int number = 0;
        for (const QImage& image : renderPages(model, DrawnVault()))
            QVERIFY(image.save(QStringLiteral("%1/measured-%2.png").arg(folder).arg(++number)));
    }

private slots:
    void aFigureStaysWithItsUnit()
    {
        const QString text = QStringLiteral(
            "Tread, inner groove, lowest point round the tyre: near side front tyre 3.4 mm; "
            "wheel fixings tightened to 120 N·m; battery 12 V, at 80 % of its charge · tread "
            "depth gauge DG 1");
        static const QRegularExpression figureEnds(QStringLiteral(R"(\d$)"));
        static const QRegularExpression unitBegins(QStringLiteral(R"(^(mm|N·m|V|%|1$))"));
        for (int width = 30; width < 90; ++width) {
            const QStringList lines = paper::linesOf(text, paper::Type::Small, width * paper::mm);
            QCOMPARE(lines.join(QLatin1Char(' ')), text);
            for (qsizetype i = 1; i < lines.size(); ++i) {
                QVERIFY2(!unitBegins.match(lines.at(i)).hasMatch(), qPrintable(lines.at(i)));
                QVERIFY2(!figureEnds.match(lines.at(i - 1)).hasMatch(),
                         qPrintable(lines.at(i - 1)));
            }
        }
    }

    void pages_ofManyFindings_holdThemAll()
    {
        RecordBench bench;
        const CarId id = bench.battered();
        const RecordModel record = bench.record(id);
        QVERIFY(record.findings.size() > 35);
        const auto pages = paper::layOut(record);
        QVERIFY(pages.size() > 2);
        everythingLiesOn(pages);
        noHeadingEndsAPage(pages);
        QString all;
        for (const paper::Page& page : pages)
            all += textOf(page) + QLatin1Char('\n');
        for (const RecordFinding& finding : record.findings)
            QVERIFY2(all.contains(finding.now().words.section(QLatin1Char(' '), 0, 1)),
                     qPrintable(finding.now().words));
    }

    void measured_standsOnAPlanOfTyres_andInLists()
    {
        RecordBench bench;
        const CarId id = bench.bringIn();
        const auto tyre = [&](const char* place, Tread tread, const char* code, const char* size) {
            bench.must(bench.appraiser, id,
                       car::RecordTyre{at(place), tread, QString::fromLatin1(code),
                                       QString::fromLatin1(size)});
        };
        tyre("tyre-front-left", {52, 55, 51}, "2329", "205/55 R16 91V");
        tyre("tyre-front-right", {53, 55, 54}, "2329", "205/55 R16 91V");
        tyre("tyre-rear-left", {61, 62, 60}, "0130", "205/55 R16 91V");
        for (const auto& [panel, depth] : std::vector<std::pair<const char*, int>>{
                 {"bonnet", 104}, {"roof", 108}, {"tailgate", 102}, {"wing-left", 310}})
            bench.must(bench.appraiser, id,
                       car::RecordPaintDepth{at(panel), {depth, depth + 3, depth + 5}});
        bench.must(bench.mechanic, id, car::ReadOdometer{48'009, DistanceUnit::Miles});
        bench.must(bench.mechanic, id,
                   car::ReadOdometer{7, DistanceUnit::Miles, {}, "new instrument cluster"});
        const RecordModel model = bench.record(id);
        const std::vector<paper::Page> pages = paper::layOut(model);
        everythingLiesOn(pages);
        noHeadingEndsAPage(pages);
        QString all;
        for (const paper::Page& page : pages)
            all += textOf(page) + QLatin1Char('\n');
        for (const char* said :
             {"Near side front tyre", "lowest 5.1 mm", "inner 5.2, centre 5.5, outer 5.1",
              "205/55 R16 91V", "made in week 23 of 2029", "Off side rear tyre",
              "tread not measured", "median 313 µm of 3 points, highest 315 µm", "stands out",
              "48,009 mi", "shows less than before: new instrument cluster"})
            QVERIFY2(all.contains(QString::fromUtf8(said)), said);
        if (const QString folder = qEnvironmentVariable("RAMPLIGHT_PICTURES"); !folder.isEmpty())
            keepPictures(model, folder);
    }

    void tyreThatWasFitted_isNew_notOneThatNobodyMeasured()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const PlaceId place = bench.car(id).operation(bench.tyre)->place;
        QCOMPARE(bench.record(id).newTyres, std::vector{place});
        const auto wordsOn = [&](std::size_t page) {
            return textOf(paper::layOut(bench.record(id)).at(page)).split(QLatin1Char('\n'));
        };
        QCOMPARE(wordsOn(0).count(QStringLiteral("new")), 1);
        // Measured afterwards, it is as deep as it was measured.
        bench.must(bench.appraiser, id, car::RecordTread{place, {78, 79, 80}});
        QVERIFY(bench.record(id).newTyres.empty());
        QCOMPARE(wordsOn(0).count(QStringLiteral("new")), 0);
        QCOMPARE(wordsOn(0).count(QStringLiteral("7.8 mm")), 1);
    }

    void feet_nameCarFingerprintAndPage()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        const auto pages = paper::layOut(record);
        QVERIFY(pages.size() > 1);
        for (std::size_t i = 0; i < pages.size(); ++i) {
            const QString text = textOf(pages[i]);
            QVERIFY(text.contains(QStringLiteral("%1 of %2").arg(i + 1).arg(pages.size())));
            QVERIFY(text.contains(QStringLiteral("K1 · %1").arg(record.fingerprint)));
        }
    }

    void pages_keepHeadingsWithWhatFollows_data()
    {
        // Every length of what stands in front shifts the cuts.
        QTest::addColumn<int>("more");
        for (int more = 0; more < 12; ++more)
            QTest::addRow("%d more findings", more) << more;
    }

    void pages_keepHeadingsWithWhatFollows()
    {
        QFETCH(int, more);
        RecordBench bench;
        const CarId id = bench.worked();
        for (int i = 0; i < more; ++i)
            bench.foundTo(id, "roof", Condition::Dent, Remedy::Leave);
        const auto pages = paper::layOut(bench.record(id));
        everythingLiesOn(pages);
        noHeadingEndsAPage(pages);
    }

    void pageWithinASection_saysWhichItGoesOnWith()
    {
        const auto tops = [](const paper::Flow& flow) {
            QStringList found;
            for (const paper::Page& page : flow.pages(paper::pageTop))
                found.append(textOf(page).section(QLatin1Char('\n'), 0, 0));
            return found;
        };
        const auto rows = [](paper::Flow& flow, int count) {
            for (int i = 0; i < count; ++i)
                flow.text(QStringLiteral("row %1").arg(i));
        };
        paper::Flow flow;
        flow.heading(QStringLiteral("Found"));
        rows(flow, 90);
        QCOMPARE(tops(flow), (QStringList{"Found", "Found, continued"}));
        flow.turnPage();
        flow.heading(QStringLiteral("Done"));
        flow.subheading(QStringLiteral("Wheel"), {});
        rows(flow, 60);
        QCOMPARE(tops(flow).mid(2), (QStringList{"Done", "Done · Wheel, continued"}));
        flow.rule();
        rows(flow, 60);
        QCOMPARE(tops(flow).mid(4), (QStringList{"Done, continued"}));
        // A gap at the foot of a page turns none.
        for (int many = 20; many < 60; ++many) {
            paper::Flow other;
            other.heading(QStringLiteral("Found"));
            rows(other, many);
            other.heading(QStringLiteral("Done"));
            rows(other, 1);
            const QStringList seen = tops(other);
            QVERIFY2(seen.size() == 1 || seen.at(1) == "Done" || seen.at(1) == "Found, continued",
                     qPrintable(seen.join(' ')));
            if (seen.size() == 2 && seen.at(1) == "Found, continued")
                QVERIFY(textOf(other.pages(paper::pageTop).at(1)).contains("row"));
        }
    }

    void words_withoutEnd_areCutAcrossPages()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        bench.found(id, "bonnet", Condition::Chip);
        QString story;
        for (int i = 0; i < 1500; ++i)
            story += QStringLiteral("word%1 ").arg(i);
        story += QString(400, QLatin1Char('x'));
        RecordModel record = bench.record(id);
        record.findings.front().versions.front().data.note = story;
        const auto pages = paper::layOut(record);
        everythingLiesOn(pages);
        QString all;
        for (const paper::Page& page : pages)
            all += textOf(page) + QLatin1Char('\n');
        for (const int i : {1, 700, 1499})
            QVERIFY(all.contains(QStringLiteral("word%1").arg(i)));
        QCOMPARE(all.count(QLatin1Char('x')) >= 400, true);
    }

    void lines_breakAtWordsAndKeepEveryWord()
    {
        const QString text = QStringLiteral("near side rear wheel: scuffed on a kerb, moderate");
        const QStringList lines = paper::linesOf(text, paper::Type::Body, 30 * paper::mm);
        QVERIFY(lines.size() > 1);
        for (const QString& line : lines)
            QVERIFY(paper::widthOf(line, paper::Type::Body) <= 30 * paper::mm + 1);
        QCOMPARE(lines.join(QLatin1Char(' ')), text);
        QCOMPARE(paper::linesOf(QStringLiteral("a\nb"), paper::Type::Body, 3000),
                 (QStringList{QStringLiteral("a"), QStringLiteral("b")}));
    }

    void typeface_isTheShippedOne()
    {
        // Not whatever the system has under the same name: its letters differ in width.
        for (const auto type : {paper::Type::Body, paper::Type::Bold})
            QVERIFY(paper::widthOf(QStringLiteral("iiii"), type) <
                    paper::widthOf(QStringLiteral("mmmm"), type) / 2);
        QVERIFY(QFontDatabase::families().contains(paper::fontOf(paper::Type::Body).family()));
    }

    void plan_numbersEveryFindingOnTheOutline_apart()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.battered());
        const auto pages = paper::layOut(record);
        std::vector<paper::Badge> badges;
        for (const paper::Item& item : pages.front())
            if (const auto* badge = std::get_if<paper::Badge>(&item))
                badges.push_back(*badge);
        QVERIFY(badges.size() > 35);
        for (std::size_t a = 0; a < badges.size(); ++a)
            for (std::size_t b = a + 1; b < badges.size(); ++b)
                QVERIFY2(QLineF(badges[a].centre, badges[b].centre).length() >
                             1.7 * paper::badgeRadius,
                         qPrintable(badges[a].text + QLatin1Char(' ') + badges[b].text));
    }

    void front_ofAHeldCar_isHatched_andOfAReleasedOneFolded()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const auto has = [](const paper::Page& page, auto test) {
            return std::ranges::any_of(page, test);
        };
        const auto hatched = [](const paper::Item& item) {
            return std::holds_alternative<paper::Hatch>(item);
        };
        const auto folded = [](const paper::Item& item) {
            const auto* box = std::get_if<paper::Box>(&item);
            return box != nullptr && box->folded;
        };
        const auto draft = paper::layOut(bench.record(id));
        QVERIFY(has(draft.front(), hatched));
        QVERIFY(!has(draft.front(), folded));
        QVERIFY(textOf(draft.back()).contains(QStringLiteral("Not released yet")));
        bench.release(id);
        const auto released = paper::layOut(bench.record(id));
        QVERIFY(!has(released.front(), hatched));
        QVERIFY(has(released.front(), folded));
    }

    void photosWithoutACounterpart_standTwoAndTwo()
    {
        RecordBench bench;
        RecordModel record = bench.record(bench.worked());
        const auto photo = [&](int number, PhotoMoment moment) {
            return RecordPhoto{PhotoId{QStringLiteral("photo-%1").arg(number)}, moment,
                               bench.mechanic, record.madeAt, QStringLiteral("words")};
        };
        for (RecordOperation& operation : record.operations)
            operation.photos.clear();
        for (RecordFinding& finding : record.findings)
            finding.photos.clear();
        record.photos.clear();
        record.operations.front().photos = {
            photo(1, PhotoMoment::Before), photo(2, PhotoMoment::Before),
            photo(3, PhotoMoment::Before), photo(4, PhotoMoment::After)};
        std::map<QString, QPointF> places;
        for (const paper::Page& page : paper::layOut(record))
            for (const paper::Item& item : page)
                if (const auto* shown = std::get_if<paper::Photo>(&item))
                    places[shown->photo.text] = shown->box.topLeft();
        QCOMPARE(places.size(), 4U);
        const auto at = [&](int number) {
            return places.at(QStringLiteral("photo-%1").arg(number));
        };
        QCOMPARE(at(1).y(), at(4).y()); // before and after
        QVERIFY(at(1).x() < at(4).x());
        QVERIFY(at(1).y() < at(2).y());
        QCOMPARE(at(2).y(), at(3).y());
        QVERIFY(at(2).x() < at(3).x());
    }

    void demo_isMarkedOnEveryPage()
    {
        RecordBench bench;
        RecordModel record = bench.record(bench.worked());
        record.demo = true;
        const auto pages = paper::layOut(record);
        QVERIFY(textOf(pages.front()).contains(QStringLiteral("Demo workshop")));
        for (const paper::Page& page : pages)
            QVERIFY(textOf(page).contains(QStringLiteral("all made up")));
    }
};

RAMPLIGHT_TEST(QGuiApplication, TestRecordLayout)
#include "tst_recordlayout.moc"
