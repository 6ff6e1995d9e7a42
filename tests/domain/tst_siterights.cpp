// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rightsmatrix.h"
#include "support/testmain.h"

#include <QTest>

#include <functional>
#include <set>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// A site command as somebody would ask for it.
struct SiteRow
{
    const char* name;
    const char* cells;
    std::function<SiteCommand(const Workbench& bench, PersonId who)> command;
};

std::vector<SiteRow> siteRows()
{
    const auto fixed = [](const SiteCommand& command) {
        return [command](const Workbench&, PersonId) { return command; };
    };
    const auto access = [](bool own, const char* what) {
        return [own, what](const Workbench& bench, PersonId who) -> SiteCommand {
            return site::ChangeAccess{own ? who : bench.painter, QString::fromLatin1(what)};
        };
    };
    HouseRules rules;
    rules.lockSeconds += 30;
    OperationAdjustment longer;
    longer.operation = QStringLiteral("valet");
    longer.minutes = Minutes{20, 30, 50};
    PersonTimes away;
    away.away = {{QDate(2031, 4, 7), QDate(2031, 4, 11)}};
    return {
        // Done once, by whoever was there first.
        {"SetUp", "------", fixed(site::SetUp{QStringLiteral("Another"), false, {}, {}})},
        {"AddPerson", "----x-", fixed(site::AddPerson{{Skill::Glass}, {Right::Work}})},
        {"ChangePerson", "----x-",
         [](const Workbench& bench, PersonId) -> SiteCommand {
             return site::ChangePerson{bench.painter, {Skill::Valet}, {Right::Work}, true};
         }},
        {"ChangeAccess, one's own PIN", "xxxxxx", access(true, "pin")},
        {"ChangeAccess, somebody's PIN", "----x-", access(false, "pin")},
        {"ChangeAccess, one's own badge", "----x-", access(true, "badge")},
        {"ChangeAccess, somebody's badge", "----x-", access(false, "badge")},
        // The house's own: whoever guesses is nobody yet.
        {"RaisePinAlarm", "xxxxxx",
         [](const Workbench& bench, PersonId) -> SiteCommand {
             return site::RaisePinAlarm{bench.painter, 100};
         }},
        {"SetBay, a new one", "----x-",
         fixed(site::SetBay{{{}, 7, QStringLiteral("Yard"), BayKind::Wheels, true}})},
        {"SetBay, one that is there", "----x-",
         [](const Workbench& bench, PersonId) -> SiteCommand {
             return site::SetBay{{bench.lift, 1, QStringLiteral("Ramp"), BayKind::Lift, true}};
         }},
        {"SetHouseRules", "----x-", fixed(site::SetHouseRules{rules})},
        {"SetCompetence", "----x-",
         [](const Workbench& bench, PersonId) -> SiteCommand {
             return site::SetCompetence{bench.painter, {}, {}};
         }},
        {"SetTimes", "----x-",
         [away](const Workbench& bench, PersonId) -> SiteCommand {
             return site::SetTimes{bench.painter, away};
         }},
        {"SetTool", "----x-",
         fixed(site::SetTool{
             {{}, QStringLiteral("TW 12"), ToolKind::TorqueWrench, QDate(2032, 1, 1), true}})},
        {"AdjustOperation", "----x-", fixed(site::AdjustOperation{longer})},
        {"AdoptCatalogue", "----x-", fixed(site::AdoptCatalogue{})},
    };
}

} // namespace

// Rights against the commands of the site, every cell; those of a car are in tst_rights.
class TestSiteRights : public QObject
{
    Q_OBJECT

private slots:
    void everyCell_data()
    {
        QTest::addColumn<int>("index");
        QTest::addColumn<QString>("cells");
        const std::vector<SiteRow> rows = siteRows();
        for (std::size_t i = 0; i < rows.size(); ++i)
            QTest::newRow(rows[i].name)
                << static_cast<int>(i) << QString::fromLatin1(rows[i].cells);
    }

    void everyCell()
    {
        QFETCH(int, index);
        QFETCH(QString, cells);
        const SiteRow row = siteRows().at(static_cast<std::size_t>(index));
        Workbench bench;
        RightsRow seen{};
        const Holders people = hireHolders(bench);
        for (std::size_t i = 0; i < people.size(); ++i) {
            MemoryLedger ledger = bench.ledger;
            Workshop workshop(ledger, bench.clock, bench.catalogue);
            const auto outcome = workshop.run(SiteRequest{{QStringLiteral("probe")},
                                                          people[i],
                                                          row.command(bench, people[i]),
                                                          QStringLiteral("Somebody")});
            const Refusal* refusal = outcome ? nullptr : std::get_if<Refusal>(&outcome.error());
            QVERIFY2(outcome || (refusal != nullptr && (refusal->id == RefusalId::NotAllowed ||
                                                        refusal->id == RefusalId::AlreadySetUp)),
                     qPrintable(outcome ? QString() : words(outcome.error())));
            seen[i] = seenTo(seen[i], outcome.has_value());
        }
        QCOMPARE(cellText(seen), cells);
    }

    void everyCommand_hasARow()
    {
        const Workbench bench;
        std::set<std::size_t> kinds;
        for (const SiteRow& row : siteRows())
            kinds.insert(row.command(bench, bench.manager).index());
        QCOMPARE(kinds.size(), SiteCommand::kinds);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestSiteRights)
#include "tst_siterights.moc"
