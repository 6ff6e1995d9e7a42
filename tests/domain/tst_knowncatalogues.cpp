// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "shippedcatalogue.h"

#include "domain/housecatalogue.h"
#include "domain/knowncatalogues.h"
#include "support/testmain.h"

#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

class TestKnownCatalogues : public QObject
{
    Q_OBJECT

private slots:
    // Entries of every version are held against it: whoever lets an operation ask for less than
    // before lowers its row, and a new operation gets one.
    void least_isAskedByTheShippedOne()
    {
        QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/catalogue/least.json"));
        QVERIFY(file.open(QIODevice::ReadOnly));
        const auto least = readLeast(file.readAll());
        QVERIFY2(least, least ? "" : qPrintable(least.error()));
        QStringList wrong;
        const auto onFewerCars = [](const std::optional<Fact>& now,
                                    const std::optional<Fact>& was) { return now && now != was; };
        const Catalogue& shipped = theShippedCatalogue();
        for (const OperationSpec& spec : shipped.operations) {
            const LeastAsked* always = least->find(spec.id);
            if (always == nullptr) {
                wrong.append(spec.id + QStringLiteral(": it has no row"));
                continue;
            }
            for (const QString& missing : notAsked(spec, *always))
                wrong.append(spec.id + QStringLiteral(": ") + missing);
            if (always->baseline && (!spec.baseline || onFewerCars(spec.ifFact, always->ifFact)))
                wrong.append(spec.id + QStringLiteral(": every car's own"));
        }
        for (const SafetyPlace& always : least->safetyPlaces) {
            const auto now =
                std::ranges::find(shipped.safetyPlaces, always.place, &SafetyPlace::place);
            if (now == shipped.safetyPlaces.end() || onFewerCars(now->ifFact, always.ifFact))
                wrong.append(always.place.text + QStringLiteral(": a safety place"));
        }
        QCOMPARE(wrong, QStringList());
    }

    void least_thatCannotBeRead_saysWhere()
    {
        QVERIFY(readLeast("[]").error().contains("no JSON object"));
        QVERIFY(readLeast(R"({"operations": [{"safety": 3}]})")
                    .error()
                    .contains("operations[0].safety: true or false was expected"));
    }

    void inForce_isThisProgramsOwnByItsHash_withTheHousesChanges()
    {
        const Catalogue& shipped = theShippedCatalogue();
        const KnownCatalogues known(shipped, {});
        SiteState site;
        QVERIFY(known.inForce(site, QStringLiteral("of an older version")) == nullptr);
        QVERIFY(KnownCatalogues().inForce(site, shipped.hash) == nullptr);
        QCOMPARE(known.inForce(site, shipped.hash)->operations, shipped.operations);
        QVERIFY(known.least(site) != nullptr);
        QVERIFY(known.isWithout(site, QStringLiteral("blessing")));
        QVERIFY(!known.isWithout(site, QStringLiteral("road-test")));
        // Made anew once the house changes something.
        site.rules.limits = {{QStringLiteral("tread-house"), 40}};
        QCOMPARE(known.inForce(site, shipped.hash)->tread.minTenthsMm, 40);
        OperationAdjustment own;
        own.operation = QStringLiteral("road-test");
        own.materialMinor = 700;
        site.adjustments[own.operation] = own;
        QCOMPARE(known.inForce(site, shipped.hash)->find(own.operation)->materialMinor, 700);
    }

    void inForce_isWhatTheHouseTookIn_whateverTheHash()
    {
        const Catalogue& shipped = theShippedCatalogue();
        Catalogue taken = shipped;
        taken.operations.resize(1);
        taken.hash = QStringLiteral("taken in");
        SiteState site;
        site.adopted.catalogue = std::make_shared<const Catalogue>(taken);
        for (const KnownCatalogues& known : {KnownCatalogues(), KnownCatalogues(shipped, {})}) {
            QCOMPARE(known.inForce(site, shipped.hash)->hash, taken.hash);
            QVERIFY(known.least(site) == nullptr);
            QVERIFY(known.isWithout(site, QStringLiteral("road-test")));
        }
    }

    void askingTheSame_isAllButTheWordsOfPhotos()
    {
        const Catalogue& shipped = theShippedCatalogue();
        OperationSpec spec = *shipped.find(QStringLiteral("brake-pads"));
        const OperationSpec as = spec;
        QVERIFY(!spec.photos.empty());
        spec.photos.front().title = QStringLiteral("auf Deutsch");
        QVERIFY(asksTheSame(spec, as));
        spec.photos.pop_back();
        QVERIFY(!asksTheSame(spec, as));
        spec = as;
        spec.clears.push_back(wholeCar());
        QVERIFY(!asksTheSame(spec, as));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestKnownCatalogues)
#include "tst_knowncatalogues.moc"
