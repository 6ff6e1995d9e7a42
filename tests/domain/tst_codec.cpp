// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carcard.h"
#include "domain/eventcodec.h"
#include "domain/jsontext.h"
#include "domain/keptrequest.h"
#include "support/testmain.h"

#include <QJsonDocument>
#include <QSet>
#include <QTest>

#include <array>
#include <utility>

using namespace ramplight;

namespace {

/// Gives every field, however deep, a value that is not its default.
class Filler
{
public:
    template <class T>
    void fill(T& value)
    {
        ++m_count;
        if constexpr (std::is_same_v<T, bool>)
            value = !value;
        else if constexpr (std::is_same_v<T, int> || std::is_same_v<T, qint64>)
            value = 1000 + m_count;
        else if constexpr (std::is_same_v<T, QString>)
            value = QStringLiteral("wörds \"%1\"\n").arg(m_count);
        else if constexpr (std::is_same_v<T, QDate>)
            value = QDate(2031, 1, 1).addDays(m_count);
        else if constexpr (std::is_same_v<T, QStringList>)
            value = {QStringLiteral("one %1").arg(m_count), QString()};
        else if constexpr (std::is_same_v<T, Moment>)
            value.ms = 1'930'000'000'000 + m_count;
        else if constexpr (codec::IsKey<T>::value)
            value.text = QStringLiteral("key-%1").arg(m_count);
        else if constexpr (codec::IsSerial<T>::value)
            value.value = 1000 + m_count;
        else if constexpr (NamedEnum<T>)
            value = Names<T>::table[0].first == value ? Names<T>::table.back().first
                                                      : Names<T>::table[0].first;
        else if constexpr (codec::IsVector<T>::value) {
            value.resize(2);
            for (auto& item : value)
                fill(item);
        } else if constexpr (codec::IsOptional<T>::value) {
            value.emplace();
            fill(*value);
        } else if constexpr (codec::IsShared<T>::value) {
            typename codec::IsShared<T>::Value whole;
            fill(whole);
            value = T(std::move(whole));
        } else {
            T::fields([&](const auto& field) { fill(value.*(field.member)); });
        }
    }

private:
    int m_count = 0;
};

template <class T>
QStringList fieldNames()
{
    QStringList names;
    T::fields([&](const auto& field) { names.append(QString(field.name)); });
    return names;
}

/// Calls visit with a filled event of every kind of the variant.
template <class Variant, std::size_t Index = 0, class Visit>
void forEachEvent(Visit visit)
{
    if constexpr (Index < Variant::kinds) {
        typename Variant::template Kind<Index> event;
        Filler().fill(event);
        visit(event);
        forEachEvent<Variant, Index + 1>(visit);
    }
}

/// The same bytes as Qt writes for the value's object.
template <class T>
bool isCanonical(const QByteArray& text, const T& value)
{
    return text == QJsonDocument(toJson(value)).toJson(QJsonDocument::Compact);
}

} // namespace

// What is written comes back; what cannot be read says where.
class TestCodec : public QObject
{
    Q_OBJECT

private slots:
    void request_thatMayBeKept_comesBackUnchanged()
    {
        QStringList kept;
        forEachCommand([&](auto command) {
            using C = decltype(command);
            const auto ask = [&] {
                return WorkRequest(
                    CarRequest{CommandId{"c-1"}, PersonId{3}, CarId{"car-1"}, {command}, true});
            };
            if constexpr (Described<C>) {
                Filler filler;
                filler.fill(command);
                QVERIFY2(mayBeKept(ask()), C::type);
                const QByteArray text = written(ask());
                for (const QString& name : fieldNames<C>())
                    QVERIFY2(text.contains('"' + name.toLatin1() + '"'), C::type);
                const auto read = readWorkRequest(text);
                QVERIFY2(read, C::type);
                QCOMPARE(written(*read), text);
                QCOMPARE(idOf(*read), CommandId{"c-1"});
                QCOMPARE(actorOf(*read), PersonId{3});
                QVERIFY(!deedWords(*read).isEmpty());
                kept.append(C::type);
            } else {
                QVERIFY(!mayBeKept(ask()));
            }
        });
        // Work, what is found and measured, and where the car stands, nothing else: whatever
        // decides about a car, people or rules is not among them.
        kept.sort();
        QCOMPARE(kept, (QStringList{"attach-photo",     "block-for-part", "confirm-repair",
                                    "countersign",      "fail-check",     "find-sound",
                                    "finish-appraisal", "hand-over",      "move-car",
                                    "open-operation",   "pause-work",     "read-cautions",
                                    "read-odometer",    "record-finding", "record-paint-depth",
                                    "record-tread",     "record-tyre",    "set-figure",
                                    "sign-off",         "start-work",     "take-reading"}));
    }

    void requestForSeveralWheels_comesBackUnchanged()
    {
        const WorkRequest asked = TogetherRequest{
            CommandId{"c-2"},
            PersonId{4},
            {{CarId{"one"},
              OperationId{7},
              {{OperationId{7}, "bake-minutes", PlaceId{"wheel-front-left"}, {15, {}}, {}}},
              "two coats"},
             {CarId{"two"}, OperationId{9}}}};
        QVERIFY(mayBeKept(asked));
        const auto read = readWorkRequest(written(asked));
        QVERIFY(read);
        QCOMPARE(std::get<TogetherRequest>(*read).items.size(), std::size_t(2));
        QVERIFY(std::get<TogetherRequest>(*read).items == std::get<TogetherRequest>(asked).items);
        QCOMPARE(written(*read), written(asked));
    }

    void request_thatIsDamaged_isNotRead_data()
    {
        QTest::addColumn<QByteArray>("text");
        QTest::newRow("empty") << QByteArray();
        QTest::newRow("half") << QByteArray("{\"id\":\"c-1\",\"act");
        QTest::newRow("unknown command")
            << QByteArray("{\"id\":\"c-1\",\"car\":\"x\",\"commands\":[{\"type\":\"release\"}]}");
        QTest::newRow("wrong field") << QByteArray(
            "{\"id\":\"c-1\",\"commands\":[{\"type\":\"start-work\",\"operation\":\"one\"}]}");
    }

    void request_thatIsDamaged_isNotRead()
    {
        QFETCH(QByteArray, text);
        const auto read = readWorkRequest(text);
        QVERIFY(!read);
        QVERIFY(!read.error().isEmpty());
    }

    void carEvent_ofEveryKind_comesBackUnchanged()
    {
        int count = 0;
        forEachEvent<CarEvent>([&](const auto& event) {
            using Event = std::decay_t<decltype(event)>;
            const EncodedEvent encoded = encode(CarEvent(event));
            QCOMPARE(encoded.type, QString(Event::type));
            // Were a field at its default, its loss would not be seen.
            QVERIFY2(isCanonical(encoded.body, event), Event::type);
            for (const QString& name : fieldNames<Event>())
                QVERIFY2(toJson(event).contains(name), Event::type);
            const auto decoded = decodeCarEvent(encoded);
            QVERIFY2(decoded, decoded ? "" : qPrintable(decoded.error().words));
            QVERIFY2(*decoded == CarEvent(event), Event::type);
            ++count;
        });
        QCOMPARE(count, int(CarEvent::kinds));
    }

    void siteEvent_ofEveryKind_comesBackUnchanged()
    {
        int count = 0;
        forEachEvent<SiteEvent>([&](const auto& event) {
            using Event = std::decay_t<decltype(event)>;
            const EncodedEvent encoded = encode(SiteEvent(event));
            QVERIFY2(isCanonical(encoded.body, event), Event::type);
            for (const QString& name : fieldNames<Event>())
                QVERIFY2(toJson(event).contains(name), Event::type);
            const auto decoded = decodeSiteEvent(encoded);
            QVERIFY2(decoded, decoded ? "" : qPrintable(decoded.error().words));
            QVERIFY2(*decoded == SiteEvent(event), Event::type);
            ++count;
        });
        QCOMPARE(count, int(SiteEvent::kinds));
    }

    void eventTypes_ofEveryKind_areDifferent()
    {
        QStringList types;
        forEachEvent<CarEvent>([&](const auto& event) { types.append(event.type); });
        forEachEvent<SiteEvent>([&](const auto& event) { types.append(event.type); });
        QCOMPARE(QSet<QString>(types.begin(), types.end()).size(), types.size());
    }

    void card_filled_comesBackUnchanged()
    {
        CarCard card;
        Filler().fill(card);
        CarCard read;
        QVERIFY(fromJson(toJson(card), read).isEmpty());
        QVERIFY(read == card);
        QVERIFY(isCanonical(jsonText(card), card));
    }

    void text_ofAnyLetters_isTheSameBytesAsQtWrites_data()
    {
        QTest::addColumn<QString>("words");
        QTest::newRow("empty") << QString();
        QTest::newRow("plain") << QStringLiteral("Front tyre, 4.2 mm ~ |");
        QTest::newRow("quotes") << QStringLiteral("\"a\\b\"/");
        QTest::newRow("lines") << QStringLiteral("a\n\tb\r\f\b");
        QTest::newRow("controls") << QStringLiteral("\u0001\u001f\u007f");
        QTest::newRow("umlauts") << QStringLiteral("Größe, 0,4 µm");
        QTest::newRow("beyond 16 bits") << QString::fromUcs4(U"\U0001F697");
        QTest::newRow("half a letter") << QString(QChar(0xd83d));
    }

    void text_ofAnyLetters_isTheSameBytesAsQtWrites()
    {
        QFETCH(QString, words);
        CarMoved moved;
        moved.parking = words;
        QVERIFY(isCanonical(jsonText(moved), moved));
    }

    void field_absent_keepsItsDefault()
    {
        const auto decoded = decodeCarEvent({FindingCorrected::type, 1, "{}"});
        QVERIFY(decoded);
        QVERIFY(*decoded == CarEvent(FindingCorrected{}));
        QVERIFY(std::get<FindingCorrected>(*decoded).stands);
        QCOMPARE(encode(CarEvent(FindingCorrected{})).body, QByteArray("{}"));
    }

    void field_unknown_isPassedOver()
    {
        // Written by a newer program that added a field.
        const auto decoded = decodeCarEvent(
            {CarHeldAgain::type, 1, R"({"colour": "blue", "reason": "found later"})"});
        QVERIFY(decoded);
        QCOMPARE(std::get<CarHeldAgain>(*decoded).reason, QStringLiteral("found later"));
    }

    void body_ofAnOlderVersion_isRaised()
    {
        // Parking places were numbers at first, then had a letter in front, and are words today.
        static constexpr std::array raised{
            Upcaster{QLatin1StringView(CarMoved::type), 2,
                     [](QJsonObject& body) {
                         body["parking"] = QStringLiteral("place ") + body.take("place").toString();
                     }},
            Upcaster{QLatin1StringView(CarMoved::type), 1,
                     [](QJsonObject& body) {
                         body["place"] = QStringLiteral("P%1").arg(body["place"].toInt());
                     }},
            Upcaster{QLatin1StringView(CarHeldAgain::type), 1,
                     [](QJsonObject& body) { body["reason"] = QStringLiteral("another kind"); }}};
        const auto parking = [](int version, const QByteArray& body) {
            const auto moved = decodeCarEvent({CarMoved::type, version, body}, raised);
            return moved ? std::get<CarMoved>(*moved).parking : moved.error().words;
        };
        QCOMPARE(parking(1, R"({"place": 7})"), QStringLiteral("place P7"));
        QCOMPARE(parking(2, R"({"place": "P7"})"), QStringLiteral("place P7"));
        QCOMPARE(parking(3, R"({"parking": "back wall"})"), QStringLiteral("back wall"));
        QVERIFY(parking(4, "{}").contains(QStringLiteral("reads up to 3")));
        QVERIFY(parking(0, "{}").contains(QStringLiteral("version 0")));

        CarMoved moved;
        moved.parking = QStringLiteral("back wall");
        QCOMPARE(encode(CarEvent(moved), raised).version, 3);
        QCOMPARE(encode(CarEvent(CarReleased{}), raised).version, 1);
    }

    void event_unreadable_saysWhere_data()
    {
        QTest::addColumn<QString>("type");
        QTest::addColumn<int>("version");
        QTest::addColumn<QByteArray>("body");
        QTest::addColumn<QString>("said");
        const auto row = [](const char* name, const char* type, const char* body, const char* said,
                            int version = 1) {
            QTest::newRow(name) << QString(type) << version << QByteArray(body) << QString(said);
        };
        row("type of tomorrow", "car-painted-over", "{}", "not known");
        row("version of tomorrow", CarMoved::type, "{}", "version 2", 2);
        row("text for a number", CarMoved::type, R"({"bay": "three"})",
            "bay: a whole number was expected");
        row("fraction", CarMoved::type, R"({"bay": 1.5})", "bay: a whole number was expected");
        row("number beyond its field", CarMoved::type, R"({"bay": 4294967297})",
            "bay: a whole number was expected");
        row("number beyond all fields", CarReleased::type, R"({"upTo": 1e300})",
            "upTo: a whole number was expected");
        row("number for a text", CarMoved::type, R"({"parking": 7})", "parking: a text");
        row("no such day", PromiseChanged::type, R"({"promised": "2031-02-30"})",
            "promised: a date");
        row("no such name", CarLeft::type, R"({"how": "stolen"})",
            "how: one of trade, scrap, back-to-owner");
        row("number for yes or no", WorkStarted::type, R"({"clockSetBack": 1})",
            "clockSetBack: true or false");
        row("object for a list", PlacesFoundSound::type, R"({"places": {}})", "places: a list");
        row("deep", OperationOpened::type,
            R"({"spec": {"readings": [{}, {"limits": [{"min": "1"}]}]}})",
            "spec.readings[1].limits[0].min: a whole number");
        row("text for an object", CarArrived::type, R"({"identity": "K1"})", "identity: an object");
        row("texts", OperationOpened::type, R"({"spec": {"cautions": [1]}})",
            "spec.cautions: a list of texts");
    }

    void event_unreadable_saysWhere()
    {
        QFETCH(QString, type);
        QFETCH(int, version);
        QFETCH(QByteArray, body);
        QFETCH(QString, said);
        const auto decoded = decodeCarEvent({type, version, body});
        QVERIFY(!decoded);
        QVERIFY2(decoded.error().words.contains(said), qPrintable(decoded.error().words));
        QVERIFY(decoded.error().words.contains(type));
    }

    void names_ofEveryEnum_areUniqueAndReadBack()
    {
        checkNames<Condition>();
        checkNames<Severity>();
        checkNames<Remedy>();
        checkNames<PlaceKind>();
        checkNames<Skill>();
        checkNames<BayKind>();
        checkNames<Fact>();
        checkNames<LimitOwner>();
        checkNames<Unit>();
        checkNames<ReadingKind>();
        checkNames<PhotoMoment>();
        checkNames<SecondPerson>();
        checkNames<Restraint>();
        checkNames<RestraintFrom>();
        checkNames<Scope>();
        checkNames<BodyShape>();
        checkNames<DistanceUnit>();
        checkNames<OperationState>();
        checkNames<Origin>();
        checkNames<StopKind>();
        checkNames<ReadingOutcome>();
        checkNames<SignatureMeaning>();
        checkNames<LeavingHow>();
        checkNames<CarStatus>();
        checkNames<HoldKind>();
        checkNames<PlaceMark>();
        checkNames<Right>();
        checkNames<TrafficSide>();
        checkNames<SideWords>();
    }

private:
    template <class E>
    static void checkNames()
    {
        QSet<QString> names;
        QSet<int> values;
        for (const auto& [value, name] : Names<E>::table) {
            names.insert(QString(name));
            values.insert(int(value));
            QCOMPARE(fromName<E>(QString(name)), std::optional<E>(value));
            QCOMPARE(nameOf(value), QString(name));
        }
        QCOMPARE(names.size(), qsizetype(Names<E>::table.size()));
        // Counted from 0 without a gap, so none was forgotten in between.
        for (int i = 0; i < int(Names<E>::table.size()); ++i)
            QVERIFY2(values.contains(i), Names<E>::table[0].second);
        QVERIFY(!fromName<E>(u"no such name"));
    }

    /// The variant's alternatives one by one.
    template <std::size_t i = 0, class F>
    static void forEachCommand(const F& f)
    {
        if constexpr (i < CarCommand::kinds) {
            f(CarCommand::Kind<i>{});
            forEachCommand<i + 1>(f);
        }
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestCodec)
#include "tst_codec.moc"
