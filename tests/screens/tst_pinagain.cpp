// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchcrew.h"
#include "benchhouse.h"

#include "kiosk/ask.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// "done", or the refusal's id.
template <class Outcome>
QString told(const Answer<Outcome>& answer)
{
    Answer<Outcome> waited = answer;
    waited.waitForFinished();
    const auto result = waited.result();
    if (result)
        return QStringLiteral("done");
    const auto* refusal = std::get_if<Refusal>(&result.error());
    return refusal == nullptr ? words(result.error()) : idText(refusal->id);
}

bool enters(BenchHouse& house, PersonId who, const QString& pin, const CommandId& request)
{
    auto tried = house.desk().tryPin(who, Secret(pin.toLatin1()), request);
    tried.waitForFinished();
    const auto answer = tried.result();
    return answer && answer->outcome == SignInAnswer::Outcome::SignedIn;
}

} // namespace

/// What wants the PIN for itself gets it behind the screens, too: a view that forgot to ask, or
/// says that it had, changes nothing.
class tst_PinAgain : public QObject
{
    Q_OBJECT

private slots:
    void release_countsOnlyThePinEnteredForIt();
    void rightsAndRules_countOnlyThePinEnteredForThem();
    void filesOfThem_countOnlyThePinEnteredForThem_data();
    void filesOfThem_countOnlyThePinEnteredForThem();
};

void tst_PinAgain::release_countsOnlyThePinEnteredForIt()
{
    BenchHouse house(BenchHouse::Start::House);
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).makeReady(car);
    const PersonId odo = house.person(QStringLiteral("Odo"));
    const QString refused = idText(RefusalId::PinNotFresh);
    const CarRequest release{newCommandId(), odo, car, {car::Release{}}, true};

    QVERIFY(enters(house, odo, BenchHouse::pin(), {})); // signed in, for nothing in particular
    QCOMPARE(told(house.desk().run(release)), refused);
    QVERIFY(enters(house, odo, BenchHouse::pin(), newCommandId()));
    QCOMPARE(told(house.desk().run(release)), refused);
    QVERIFY(!enters(house, odo, QStringLiteral("000000"), release.id));
    QCOMPARE(told(house.desk().run(release)), refused);
    // Somebody else's PIN for it is not his.
    QVERIFY(enters(house, house.person(QStringLiteral("Runa")), BenchHouse::pin(), release.id));
    QCOMPARE(told(house.desk().run(release)), refused);

    QVERIFY(enters(house, odo, BenchHouse::pin(), release.id));
    QCOMPARE(told(house.desk().run(release)), QStringLiteral("done"));
    // Sent again, as after an answer that was lost: it was carried out, once.
    const qint64 seq = house.car(car).seq;
    QCOMPARE(told(house.desk().run(release)), QStringLiteral("done"));
    QCOMPARE(house.car(car).seq, seq);
}

void tst_PinAgain::rightsAndRules_countOnlyThePinEnteredForThem()
{
    BenchHouse house(BenchHouse::Start::House);
    const PersonId runa = house.person(QStringLiteral("Runa"));
    HouseRules rules = house.site().rules;
    rules.shiftEndMinute += 30;
    const PersonId ivo = house.person(QStringLiteral("Ivo"));
    const std::vector<SiteCommand> guarded{
        site::SetHouseRules{rules},
        site::AddPerson{{Skill::Wheels}, {Right::Work}},
        site::ChangePerson{ivo, {Skill::Wheels}, {Right::Work, Right::Release}, true},
        site::ChangeAccess{ivo, QStringLiteral("pin")},
        site::SetCompetence{ivo, {{Qualification::Spraying, QDate(2040, 1, 1)}}, {}},
        site::AdjustOperation{{"full-valet", Minutes{5, 10, 20}, {}, {}, {}}},
        site::AdoptCatalogue{},
    };
    for (const SiteCommand& command : guarded) {
        const bool named = std::holds_alternative<site::AddPerson>(command);
        const SiteRequest request{newCommandId(), runa, command,
                                  named ? QStringLiteral("Perrin Lowe") : QString()};
        const qint64 before = house.site().seq;
        QCOMPARE(told(house.desk().run(request)), idText(RefusalId::PinNotFresh));
        QCOMPARE(house.site().seq, before);
        QVERIFY(enters(house, runa, BenchHouse::pin(), request.id));
        QCOMPARE(told(house.desk().run(request)), QStringLiteral("done"));
    }
    // Nobody's rights hang on a bay.
    const SiteRequest bay{newCommandId(),
                          runa,
                          site::SetBay{{{}, 9, QStringLiteral("Yard wash"), BayKind::Any, true}},
                          {}};
    QCOMPARE(told(house.desk().run(bay)), QStringLiteral("done"));
}

void tst_PinAgain::filesOfThem_countOnlyThePinEnteredForThem_data()
{
    QTest::addColumn<QString>("name");
    QTest::newRow("house") << "house.json";
    QTest::newRow("catalogue") << "catalogue.json";
}

void tst_PinAgain::filesOfThem_countOnlyThePinEnteredForThem()
{
    QFETCH(QString, name);
    BenchHouse house(BenchHouse::Start::House);
    const PersonId runa = house.person(QStringLiteral("Runa"));
    auto written = house.desk().exportHouse();
    written.waitForFinished();
    QVERIFY(written.result().has_value());
    const QString path = QDir(*written.result()).filePath(name);
    // Another one than what there is.
    QFile file(path);
    QVERIFY(file.open(QIODevice::ReadWrite));
    QJsonObject changed = QJsonDocument::fromJson(file.readAll()).object();
    if (name == "house.json") {
        QJsonObject rules = changed["rules"].toObject();
        QVERIFY(rules.contains("shiftEndMinute"));
        rules["shiftEndMinute"] = 16 * 60 + 15;
        changed["rules"] = rules;
    } else {
        changed["title"] = "What is done here";
    }
    QVERIFY(file.resize(0) && file.seek(0) && file.write(QJsonDocument(changed).toJson()) > 0);
    file.close();

    const auto takes = [&](const CommandId& request) {
        auto taken = house.desk().importHouse(request, runa, path);
        taken.waitForFinished();
        return taken.result() ? QStringLiteral("done") : taken.result().error().join('\n');
    };
    const CommandId request = newCommandId();
    const qint64 before = house.site().seq;
    const QString refused = words(Refusal{RefusalId::PinNotFresh, {}});
    QVERIFY(enters(house, runa, BenchHouse::pin(), {}));
    QCOMPARE(takes(request), refused);
    QVERIFY(enters(house, runa, BenchHouse::pin(), newCommandId()));
    QCOMPARE(takes(request), refused);
    QCOMPARE(house.site().seq, before);
    QVERIFY(enters(house, runa, BenchHouse::pin(), request));
    QCOMPARE(takes(request), QStringLiteral("done"));
    const qint64 after = house.site().seq;
    QVERIFY(after > before);
    // Sent again, as after an answer that was lost: it was taken in, once.
    QCOMPARE(takes(request), QStringLiteral("done"));
    QCOMPARE(house.site().seq, after);
}

RAMPLIGHT_TEST(QGuiApplication, tst_PinAgain)
#include "tst_pinagain.moc"
