// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "samples.h"

#include "appraisal/importing.h"
#include "domain/workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// A worn brake, and a chip, found by the person of that name.
AppraisalFile fileOf(const QString& appraiser)
{
    AppraisalFile file = *readAppraisal(sample(), bytesOf("schema/appraisal.schema.json"));
    file.appraiser = appraiser;
    file.findings = {finding("brakes-front", Condition::Worn), finding("bonnet", Condition::Chip)};
    return file;
}

} // namespace

// An appraisal that comes as a file: whose findings they are, whoever takes it in.
class TestImporting : public QObject
{
    Q_OBJECT

private slots:
    void finding_isOfWhoFoundIt_andOfWhoTookItIn()
    {
        Workbench bench;
        const SiteState site = *bench.ledger.site();
        const PersonId second = bench.hire("Ada Penrow", {}, {Right::Appraise});
        const AppraisalFile file = fileOf(site.person(bench.appraiser)->name);
        QCOMPARE(appraiserOf(file, site), bench.appraiser);
        const CarRequest request = requestFrom(file, second, bench.appraiser);
        QVERIFY(bench.workshop.run(request));
        const CarId id = request.car;
        const Finding worn = *bench.car(id).finding(FindingId{1});
        QCOMPARE(worn.versions.front().by, bench.appraiser);
        QCOMPARE(worn.recorders(), (std::set{bench.appraiser, second}));
        // At a safety place neither of them is the second person.
        for (const PersonId one : {bench.appraiser, second})
            QCOMPARE(bench.ask(one, id,
                               car::CorrectFinding{worn.id, {}, false, "a mark", bench.photo()}),
                     no(RefusalId::SecondPersonNeeded));
        bench.must(bench.checker, id,
                   car::CorrectFinding{worn.id, {}, false, "a mark", bench.photo()});
    }

    void day_isThatOfTheFile_andNeverToCome()
    {
        Workbench bench;
        AppraisalFile file = fileOf(QStringLiteral("Ada Penrow"));
        const PersonId found = bench.hire(file.appraiser, {}, {Right::Appraise});
        file.date = bench.today().addDays(-3);
        QVERIFY(bench.workshop.run(requestFrom(file, bench.appraiser, found)));
        const CarId id = requestFrom(file, bench.appraiser, found).car;
        const Moment at = bench.car(id).finding(FindingId{1})->versions.front().at;
        QCOMPARE(dayOf(at, HouseRules{}), file.date);
        file.date = bench.today().addDays(3);
        file.hash = QStringLiteral("another-file-of-the-same-appraiser");
        file.identity.stockNumber = QStringLiteral("K 77");
        const CarRequest later = requestFrom(file, bench.appraiser, found);
        QVERIFY(bench.workshop.run(later));
        QVERIFY(bench.car(later.car).finding(FindingId{1})->versions.front().at <=
                bench.clock.now());
    }

    void appraiser_whoIsNobodyHere_leavesThemToWhoTookItIn()
    {
        Workbench bench;
        const AppraisalFile file = fileOf(QStringLiteral("Somebody Else"));
        const PersonId found = appraiserOf(file, *bench.ledger.site());
        QVERIFY(found.isNull());
        const CarRequest request = requestFrom(file, bench.appraiser, found);
        QVERIFY(bench.workshop.run(request));
        QCOMPARE(bench.car(request.car).finding(FindingId{1})->recorders(),
                 std::set{bench.appraiser});
    }

    void finder_isNotSomebodyWithoutTheRight()
    {
        Workbench bench;
        const CarRequest request = requestFrom(fileOf({}), bench.appraiser, bench.seller);
        const auto outcome = bench.workshop.run(request);
        QVERIFY(!outcome);
        const Refusal* refusal = std::get_if<Refusal>(&outcome.error());
        QVERIFY(refusal != nullptr);
        QCOMPARE(refusal->id, RefusalId::PersonUnknown);
    }
};

QTEST_GUILESS_MAIN(TestImporting)
#include "tst_importing.moc"
