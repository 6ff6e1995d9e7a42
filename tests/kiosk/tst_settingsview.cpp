// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "operationscene.h"
#include "support/testmain.h"

#include <QAbstractItemModelTester>
#include <QTest>

#include <algorithm>

namespace ramplight::test {

namespace {

/// Two countries and one limit of the house, which the tyre survey names.
void teach(Catalogue& catalogue)
{
    NamedLimit legal{QStringLiteral("tread-legal"),
                     QStringLiteral("legal tread"),
                     Unit::Millimetre,
                     1,
                     LimitOwner::Law,
                     QStringLiteral("verify locally"),
                     16,
                     {}};
    Country here{QStringLiteral("GB"),
                 QStringLiteral("Great Britain"),
                 TrafficSide::Left,
                 SideWords::NearOff,
                 {legal}};
    Country there{QStringLiteral("US"),
                  QStringLiteral("United States"),
                  TrafficSide::Right,
                  SideWords::LeftRight,
                  {legal}};
    there.limits.front().min = 15;
    catalogue.countries = {here, there};
    NamedLimit own = legal;
    own.name = QStringLiteral("tread-house");
    own.title = QStringLiteral("tread asked by the house");
    own.owner = LimitOwner::House;
    own.source = QStringLiteral("house default");
    own.min = 30;
    catalogue.houseLimits = {own};
}

/// A house with that catalogue, its manager signed in.
struct SettingsScene
{
    SettingsScene()
    {
        teach(kiosk.bench.catalogue);
        kiosk.bench.ask(kiosk.bench.manager,
                        site::SetBay{{{}, 8, QStringLiteral("Wash"), BayKind::Valet, true}});
        kiosk.signIn(kiosk.bench.manager);
        kiosk.settle();
        view->refresh();
    }
    [[nodiscard]] SiteState site() { return kiosk.bench.ledger.site().value(); }
    /// Signs what waits for the PIN; what came of it.
    QString sign(Ask* ask)
    {
        kiosk.typePin(kiosk.bench.manager);
        // The question to the workshop comes once the PIN was looked at.
        if (!QTest::qWaitFor([&] { return kiosk.shell.session()->stage() == Session::Nobody; }))
            return QStringLiteral("the PIN is still asked for");
        return kiosk.outcome(ask);
    }

    ViewBench kiosk;
    SettingsView* view = kiosk.shell.settings();
};

} // namespace

/// What a manager sets, without screens.
class TestSettingsView : public QObject
{
    Q_OBJECT

private slots:
    void rules_areShownWithTheirOwners();
    void ruleChanged_isSignedAndKept();
    void country_bringsItsWaysAlong();
    void limitTypedAsNonsense_isRefused();
    void whatMayBeLeft_isTheOtherWayRound();
    void tool_isAddedChangedAndSorted();
    void qualification_isGivenAndTaken();
    void operation_isAdjustedAndTakenBack();
    void changes_sayWhatBecameOfWhatAndWho();
    void reading_takesTheOnlyToolByItself();
    void reading_ofSeveralTools_asksOncePerPerson();
    void reading_withNoToolInDate_saysWhichIsOverdue();
};

void TestSettingsView::rules_areShownWithTheirOwners()
{
    SettingsScene scene;
    const LimitsModel& limits = *scene.view->rules()->limits();
    QCOMPARE(column(limits, "rowId"), (QStringList{"tread-house", "tread-legal"}));
    QCOMPARE(column(limits, "boundWords"), (QStringList{"at least 3.0 mm", "at least 1.6 mm"}));
    QCOMPARE(column(limits, "ownerWords"), (QStringList{"house", "law"}));
    QCOMPARE(column(limits, "own"), (QStringList{"true", "false"}));
    QVERIFY(!scene.view->rules()->changed());
    QCOMPARE(scene.view->rules()->shiftEnd(), QStringLiteral("17:30"));
}

void TestSettingsView::ruleChanged_isSignedAndKept()
{
    SettingsScene scene;
    RulesView* rules = scene.view->rules();
    rules->setLimit(QStringLiteral("tread-house"), QStringLiteral("3.5"));
    rules->moveShiftEnd(-15);
    rules->locks()->choose(QStringLiteral("60"));
    rules->photos()->choose(QStringLiteral("after"));
    QCOMPARE(rules->photoYears()->current(), QStringLiteral("0")); // for good
    rules->photoYears()->choose(QStringLiteral("6"));
    QVERIFY(rules->changed());
    QCOMPARE(at(*rules->limits(), 0, "boundWords").toString(), QStringLiteral("at least 3.5 mm"));
    QVERIFY(at(*rules->limits(), 0, "changed").toBool());
    QVERIFY(scene.site().rules == HouseRules{}); // not before it is signed
    rules->save();
    QCOMPARE(scene.sign(rules->ask()), done);
    const HouseRules kept = scene.site().rules;
    QCOMPARE(kept.limits, (std::vector<HouseLimit>{{QStringLiteral("tread-house"), 35}}));
    QCOMPARE(kept.shiftEndMinute, 17 * 60 + 15);
    QCOMPARE(kept.lockSeconds, 60);
    QCOMPARE(kept.askPhotos, std::vector<PhotoMoment>{PhotoMoment::After});
    QCOMPARE(kept.photoYears, 6);
    QTRY_VERIFY(!rules->changed());
    // The catalogue's value again is no value of the house's own.
    rules->setLimit(QStringLiteral("tread-house"), QStringLiteral("3"));
    QVERIFY(!at(*rules->limits(), 0, "changed").toBool());
    rules->begin();
    QCOMPARE(at(*rules->limits(), 0, "boundWords").toString(), QStringLiteral("at least 3.5 mm"));
    QVERIFY(!rules->changed());
}

void TestSettingsView::country_bringsItsWaysAlong()
{
    SettingsScene scene;
    RulesView* rules = scene.view->rules();
    QCOMPARE(rules->countries()->current(), QStringLiteral("GB"));
    rules->countries()->choose(QStringLiteral("US"));
    QCOMPARE(rules->traffic()->current(), QStringLiteral("right"));
    QCOMPARE(rules->sides()->current(), QStringLiteral("left-right"));
    QCOMPARE(rules->currencies()->current(), QStringLiteral("USD"));
    QCOMPARE(at(*rules->limits(), 1, "boundWords").toString(), QStringLiteral("at least 1.5 mm"));
    rules->sides()->choose(QStringLiteral("near-off"));
    rules->save();
    QCOMPARE(scene.sign(rules->ask()), done);
    const HouseRules kept = scene.site().rules;
    QCOMPARE(kept.country, QStringLiteral("US"));
    QCOMPARE(kept.trafficSide, TrafficSide::Right);
    QCOMPARE(kept.sideWords, SideWords::NearOff);
    QCOMPARE(kept.currency, QStringLiteral("USD"));
}

void TestSettingsView::limitTypedAsNonsense_isRefused()
{
    SettingsScene scene;
    RulesView* rules = scene.view->rules();
    rules->setLimit(QStringLiteral("tread-house"), QStringLiteral("much"));
    QCOMPARE(rules->ask()->refusalId(), QStringLiteral("value-out-of-range"));
    rules->setLimit(QStringLiteral("tread-legal"), QStringLiteral("0.5")); // the law's own
    QVERIFY(!rules->changed());
}

void TestSettingsView::whatMayBeLeft_isTheOtherWayRound()
{
    SettingsScene scene;
    RulesView* rules = scene.view->rules();
    QVERIFY(rules->mayBeLeft()->chosen().contains(QStringLiteral("valet")));
    QVERIFY(!rules->mayBeLeft()->chosen().contains(QStringLiteral("checks")));
    rules->mayBeLeft()->choose(QStringLiteral("valet"));
    rules->save();
    QCOMPARE(scene.sign(rules->ask()), done);
    QCOMPARE(scene.site().rules.neverLeft, std::vector<Skill>{Skill::Valet});
    QTRY_VERIFY(!rules->changed());
}

void TestSettingsView::tool_isAddedChangedAndSorted()
{
    SettingsScene scene;
    ToolsView* tools = scene.view->tools();
    const QAbstractItemModelTester tester(tools->tools());
    scene.kiosk.bench.tool("T 7", ToolKind::TorqueWrench, scene.kiosk.bench.today().addDays(60));
    scene.kiosk.bench.tool("T 8", ToolKind::TorqueWrench, scene.kiosk.bench.today().addDays(-1));
    scene.kiosk.bench.tool("T 9", ToolKind::TorqueWrench, scene.kiosk.bench.today().addDays(30));
    tools->edit(0);
    QVERIFY(tools->due().isEmpty());
    tools->setNumber(QStringLiteral(" G 1 "));
    tools->kinds()->choose(QStringLiteral("tread-gauge"));
    tools->setDue(QStringLiteral("2032-05-12"));
    QCOMPARE(tools->dueWords(), QStringLiteral("12 May 2032"));
    tools->save();
    QCOMPARE(scene.sign(tools->ask()), done);
    QTRY_COMPARE(column(*tools->tools(), "number"), (QStringList{"T 8", "T 9", "T 7", "G 1"}));
    QCOMPARE(column(*tools->tools(), "overdue"), (QStringList{"true", "false", "false", "false"}));
    QCOMPARE(column(*tools->tools(), "soon"), (QStringList{"false", "true", "false", "false"}));
    QCOMPARE(tools->overdue(), 1);
    QCOMPARE(at(*tools->tools(), 0, "dueWords").toString(), QStringLiteral("was due 26 Feb 2031"));
    tools->edit(2);
    QCOMPARE(tools->number(), QStringLiteral("T 8"));
    tools->setDue(QStringLiteral("2032-01-01"));
    tools->save();
    QCOMPARE(scene.sign(tools->ask()), done);
    QTRY_COMPARE(tools->overdue(), 0);
    // Two of one number.
    tools->edit(0);
    tools->setNumber(QStringLiteral("T 7"));
    tools->setDue(QStringLiteral("2032-01-01"));
    tools->save();
    QCOMPARE(scene.sign(tools->ask()), no(RefusalId::ToolNumberTaken));
}

void TestSettingsView::qualification_isGivenAndTaken()
{
    SettingsScene scene;
    scene.kiosk.bench.spec("touch-in").speciality = QStringLiteral("dents-without-paint");
    scene.kiosk.bench.ask(scene.kiosk.bench.manager,
                          site::SetCompetence{scene.kiosk.bench.painter, {}, {}});
    scene.kiosk.settle();
    CompetenceView* form = scene.view->competence();
    form->edit(scene.kiosk.bench.painter.value);
    QCOMPARE(form->name(), QStringLiteral("Noor"));
    QCOMPARE(column(*form->qualifications(), "untilWords"),
             (QStringList{"not held", "not held", "not held", "not held"}));
    QCOMPARE(column(*form->specialities(), "title"), QStringList{"Dents without paint"});
    form->setUntil(QStringLiteral("spraying"), QStringLiteral("2031-02-26"));
    QCOMPARE(at(*form->qualifications(), 3, "untilWords").toString(),
             QStringLiteral("over since 26 Feb 2031"));
    form->setUntil(QStringLiteral("spraying"), QStringLiteral("2031-02-27"));
    QVERIFY(!at(*form->qualifications(), 3, "over").toBool());
    form->specialities()->choose(QStringLiteral("dents-without-paint"));
    form->save();
    QCOMPARE(scene.sign(form->ask()), done);
    const Person held = *scene.site().person(scene.kiosk.bench.painter);
    QCOMPARE(held.held(Qualification::Spraying)->until, QDate(2031, 2, 27));
    QCOMPARE(held.specialities, QStringList{"dents-without-paint"});
    // It ends today: the wall warns.
    QTRY_VERIFY(
        !scene.kiosk.shell.houseWarnings().filter(QStringLiteral("Noor: spraying")).isEmpty());
    form->edit(scene.kiosk.bench.painter.value);
    form->setUntil(QStringLiteral("spraying"), {});
    form->save();
    QCOMPARE(scene.sign(form->ask()), done);
    QVERIFY(scene.site().person(scene.kiosk.bench.painter)->qualifications.empty());
}

void TestSettingsView::operation_isAdjustedAndTakenBack()
{
    SettingsScene scene;
    CatalogueView* catalogue = scene.view->catalogue();
    catalogue->edit(QStringLiteral("tyre-survey"));
    QCOMPARE(catalogue->kindTitle(), QStringLiteral("Tyre survey"));
    QCOMPARE(catalogue->usual(), 20);
    QCOMPARE(catalogue->materialWords(), QStringLiteral("not entered"));
    QVERIFY(!catalogue->changed());
    QCOMPARE(column(*catalogue->limits(), "boundWords"), QStringList{"at least 3.0 mm"});
    catalogue->setMinutes(QStringLiteral("usual"), QStringLiteral("25"));
    catalogue->setMaterial(QStringLiteral("12.5"));
    catalogue->setLimit(at(*catalogue->limits(), 0, "rowId").toString(), QStringLiteral("3.5"));
    catalogue->photos()->choose(QStringLiteral("after"));
    QVERIFY(catalogue->changed() && !catalogue->adjusted());
    QCOMPARE(catalogue->materialWords(), QStringLiteral("12.50 GBP"));
    QCOMPARE(column(*catalogue->limits(), "boundWords"), QStringList{"at least 3.5 mm"});
    QCOMPARE(catalogue->evidence().size(), 2);
    catalogue->save();
    QCOMPARE(scene.sign(catalogue->ask()), done);
    QTRY_VERIFY(catalogue->adjusted() && !catalogue->changed());
    const CarId id = scene.kiosk.bench.appraised();
    const OperationSpec spec =
        scene.kiosk.bench.operation(id, scene.kiosk.bench.open(id, "tyre-survey")).spec;
    QCOMPARE(spec.minutes, (Minutes{10, 25, 40}));
    QCOMPARE(spec.materialMinor, 1250);
    QCOMPARE(spec.readings.front().limits.front().min, 35);
    QCOMPARE(spec.photos.size(), 1u);
    const auto changedKinds = [&] {
        QStringList changed;
        for (const KindRow& row : catalogue->kinds()->rows())
            if (row.changed)
                changed.append(row.kindId);
        return changed;
    };
    QTRY_COMPARE(changedKinds(), QStringList{"tyre-survey"});
    // What cannot be comes back as a refusal.
    catalogue->setMinutes(QStringLiteral("low"), QStringLiteral("90"));
    catalogue->save();
    QCOMPARE(scene.sign(catalogue->ask()), no(RefusalId::RuleOutOfRange));
    catalogue->takeBack();
    QCOMPARE(scene.sign(catalogue->ask()), done);
    QTRY_VERIFY(changedKinds().isEmpty());
    QCOMPARE(catalogue->usual(), 20);
}

void TestSettingsView::changes_sayWhatBecameOfWhatAndWho()
{
    SettingsScene scene;
    RulesView* rules = scene.view->rules();
    rules->setLimit(QStringLiteral("tread-house"), QStringLiteral("3.5"));
    rules->save();
    QCOMPARE(scene.sign(rules->ask()), done);
    const SiteChangesModel& changes = *scene.view->changes();
    QTRY_COMPARE(at(changes, 0, "title").toString(), QStringLiteral("House rules"));
    QCOMPARE(at(changes, 0, "detail").toString(),
             QStringLiteral("tread asked by the house: 3.0 mm became 3.5 mm"));
    QVERIFY2(at(changes, 0, "byWords").toString().startsWith(QStringLiteral("Orla, ")),
             qPrintable(at(changes, 0, "byWords").toString()));
    const auto first = [&](const char* role) { return at(changes, 0, role).toString(); };
    const auto tells = [&](const SiteCommand& command, const char* title, const char* detail) {
        scene.kiosk.bench.ask(scene.kiosk.bench.manager, command);
        scene.kiosk.settle();
        QTRY_COMPARE(first("title"), QString::fromLatin1(title));
        QCOMPARE(first("detail"), QString::fromLatin1(detail));
    };
    tells(site::SetTool{{{}, "T 7", ToolKind::TorqueWrench, QDate(2032, 1, 1), true}},
          "New tool T 7", "torque wrench; next calibration 1 Jan 2032");
    tells(site::SetTool{{ToolId{1}, "T 7", ToolKind::TorqueWrench, QDate(2033, 1, 1), true}},
          "Tool T 7", "torque wrench; next calibration: 1 Jan 2032 became 1 Jan 2033");
    tells(site::AdjustOperation{{"tyre-survey", Minutes{5, 10, 20}, 450, {{"tread", 35, {}}}, {}}},
          "Tyre survey", "minutes 5, 10, 20; material 4.50 GBP; tread 3.5 mm");
    tells(site::SetCompetence{scene.kiosk.bench.painter,
                              {{Qualification::Spraying, QDate(2032, 1, 1)}},
                              {}},
          "Qualification of Noor", "spraying until 1 Jan 2032");
    QCOMPARE(scene.kiosk.bench.ask({}, site::RaisePinAlarm{scene.kiosk.bench.painter, 100}), done);
    scene.kiosk.settle();
    QTRY_COMPARE(first("title"), QStringLiteral("PIN of Noor"));
    QCOMPARE(first("detail"),
             QStringLiteral("somebody guesses it: locked after 100 wrong ones, until a new PIN is "
                            "set"));
    QCOMPARE(scene.kiosk.bench.ask({}, site::RaisePinAlarm{scene.kiosk.bench.painter, 11, false}),
             done);
    scene.kiosk.settle();
    QTRY_COMPARE(first("detail"),
                 QStringLiteral("somebody may be guessing it: 11 wrong ones in a row"));
    QCOMPARE(scene.kiosk.bench.ask({}, site::RaisePinAlarm{{}, 10, false, 5}), done);
    scene.kiosk.settle();
    QTRY_COMPARE(first("title"), QStringLiteral("PINs of 5 people"));
    QVERIFY(first("detail").startsWith("somebody may be trying one after the other: 10 wrong"));
    QCOMPARE(first("byWords").count(u','), 1); // of the day; nobody's name
}

void TestSettingsView::reading_takesTheOnlyToolByItself()
{
    OperationScene scene("inspection");
    scene.kiosk.bench.spec("tyre-survey").readings.front().tool = ToolKind::TreadGauge;
    const QDate today = scene.kiosk.bench.today();
    scene.kiosk.bench.tool("G 1", ToolKind::TreadGauge, today.addDays(-1));
    scene.kiosk.bench.tool("G 2", ToolKind::TreadGauge, today);
    scene.car = scene.kiosk.bench.appraised();
    scene.id = scene.kiosk.bench.open(scene.car, "tyre-survey");
    scene.kiosk.open(scene.car);
    scene.view->open(scene.car.text, scene.id.value);
    scene.kiosk.settle(); // the tools were registered elsewhere
    scene.kiosk.signIn(scene.kiosk.bench.wheels);
    scene.view->readAndStart();
    QCOMPARE(scene.answer(), done);
    QVERIFY(scene.reading("tread@tyre-front-left", "toolKind").toString().isEmpty());
    scene.view->takeReading(QStringLiteral("tread@tyre-front-left"), QStringLiteral("6"));
    QCOMPARE(scene.answer(), done);
    QTRY_COMPARE(scene.reading("tread@tyre-front-left", "toolWords").toString(),
                 QStringLiteral("tread depth gauge G 2"));
}

void TestSettingsView::reading_ofSeveralTools_asksOncePerPerson()
{
    OperationScene scene("inspection");
    scene.kiosk.bench.spec("tyre-survey").readings.front().tool = ToolKind::TreadGauge;
    const QDate today = scene.kiosk.bench.today();
    scene.kiosk.bench.tool("G 1", ToolKind::TreadGauge, today);
    const ToolId second = scene.kiosk.bench.tool("G 2", ToolKind::TreadGauge, today);
    scene.car = scene.kiosk.bench.appraised();
    scene.id = scene.kiosk.bench.open(scene.car, "tyre-survey");
    scene.kiosk.open(scene.car);
    scene.view->open(scene.car.text, scene.id.value);
    scene.kiosk.settle(); // the tools were registered elsewhere
    scene.kiosk.signIn(scene.kiosk.bench.wheels);
    scene.view->readAndStart();
    QCOMPARE(scene.answer(), done);
    const char* row = "tread@tyre-front-left";
    QTRY_COMPARE(scene.reading(row, "toolNumbers").toStringList(), (QStringList{"G 1", "G 2"}));
    scene.view->takeReading(QString::fromLatin1(row), QStringLiteral("6"));
    QCOMPARE(scene.answer(), no(RefusalId::ToolNeeded));
    scene.view->chooseTool(QString::fromLatin1(row), second.value);
    QCOMPARE(scene.reading(row, "toolId").toInt(), second.value);
    scene.view->takeReading(QString::fromLatin1(row), QStringLiteral("6"));
    QCOMPARE(scene.answer(), done);
    // The next one is taken with the same, also on the next car.
    scene.view->takeReading(QStringLiteral("tread@tyre-rear-left"), QStringLiteral("5"));
    QCOMPARE(scene.answer(), done);
    QTRY_COMPARE(scene.reading("tread@tyre-rear-left", "toolWords").toString(),
                 QStringLiteral("tread depth gauge G 2"));
}

void TestSettingsView::reading_withNoToolInDate_saysWhichIsOverdue()
{
    OperationScene scene("inspection");
    scene.kiosk.bench.spec("tyre-survey").readings.front().tool = ToolKind::TreadGauge;
    scene.kiosk.bench.tool("G 1", ToolKind::TreadGauge, scene.kiosk.bench.today().addDays(-9));
    scene.car = scene.kiosk.bench.appraised();
    scene.id = scene.kiosk.bench.open(scene.car, "tyre-survey");
    scene.kiosk.open(scene.car);
    scene.view->open(scene.car.text, scene.id.value);
    scene.kiosk.settle(); // the tools were registered elsewhere
    scene.kiosk.signIn(scene.kiosk.bench.wheels);
    scene.view->readAndStart();
    QCOMPARE(scene.answer(), done);
    scene.view->takeReading(QStringLiteral("tread@tyre-front-left"), QStringLiteral("6"));
    QCOMPARE(scene.answer(), no(RefusalId::ToolOverdue));
    QVERIFY(scene.view->ask()->words().contains(QStringLiteral("G 1")));
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestSettingsView)
#include "tst_settingsview.moc"
