// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/appraisalfile.h"

#include "appraisal/jsonscan.h"
#include "appraisal/schemacheck.h"
#include "domain/vin.h"

#include <QCryptographicHash>
#include <QSet>

#include <rapidjson/document.h>
#include <rapidjson/memorystream.h>
#include <rapidjson/pointer.h>
#include <rapidjson/schema.h>
#include <rapidjson/stringbuffer.h>

#include <algorithm>

namespace ramplight {

namespace {

using Json = rapidjson::Value;
using Faults = std::vector<FileFault>;

/// Null when the path leads nowhere or through something else.
const Json* at(const Json& root, const QString& pointer)
{
    const QByteArray utf8 = pointer.toUtf8();
    return rapidjson::Pointer(utf8.constData(), static_cast<std::size_t>(utf8.size())).Get(root);
}

QString text(const Json& root, const QString& pointer)
{
    const Json* value = at(root, pointer);
    return value == nullptr || !value->IsString()
               ? QString()
               : QString::fromUtf8(value->GetString(),
                                   static_cast<qsizetype>(value->GetStringLength()));
}

std::optional<int> number(const Json& root, const QString& pointer)
{
    const Json* value = at(root, pointer);
    return value == nullptr || !value->IsInt() ? std::nullopt : std::optional(value->GetInt());
}

/// How many entries a list has; 0 when it is no list.
int entries(const Json& root, const QString& pointer)
{
    const Json* value = at(root, pointer);
    return value == nullptr || !value->IsArray() ? 0 : static_cast<int>(value->Size());
}

QString entry(const char* list, int index)
{
    return QStringLiteral("/%1/%2").arg(QLatin1StringView(list)).arg(index);
}

/// The schema has seen to it that the word is known.
template <class E>
std::optional<E> word(const Json& root, const QString& pointer)
{
    return fromName<E>(text(root, pointer));
}

template <class E>
std::vector<E> words(const Json& root, const QString& pointer)
{
    std::vector<E> values;
    for (int i = 0; i < entries(root, pointer); ++i)
        if (const auto value = word<E>(root, QStringLiteral("%1/%2").arg(pointer).arg(i)))
            values.push_back(*value);
    return values;
}

QDate day(const Json& root, const QString& pointer)
{
    return QDate::fromString(text(root, pointer), QStringLiteral("yyyy-MM-dd"));
}

/// What the schema cannot say: days that exist, identification numbers, contradictions.
class Meaning
{
public:
    explicit Meaning(const Json& root)
        : m_root(root)
    {
    }

    Faults check()
    {
        for (const char* pointer : {"/date", "/car/promised"})
            date(QString::fromLatin1(pointer));
        vin();
        drive();
        sound();
        treads();
        return m_faults;
    }

private:
    void say(const QString& path, const QString& expected)
    {
        FileFault fault;
        fault.path = path;
        fault.expected = expected;
        m_faults.push_back(fault);
    }

    void date(const QString& pointer)
    {
        const QString written = text(m_root, pointer);
        // Another form is the schema's to refuse.
        if (written.size() == 10 && !day(m_root, pointer).isValid())
            say(pointer,
                QStringLiteral("a day of the calendar was expected, not \"%1\"").arg(written));
    }

    void vin()
    {
        const QString pointer = QStringLiteral("/car/vin");
        const QString written = text(m_root, pointer);
        if (written.isEmpty())
            return;
        if (const auto read = readVin(written); !read)
            say(pointer, ramplight::words(read.error()));
    }

    void drive()
    {
        const auto drive = word<Drive>(m_root, QStringLiteral("/car/drive"));
        const auto facts = words<Fact>(m_root, QStringLiteral("/car/facts"));
        const auto has = [&](Fact fact) { return std::ranges::find(facts, fact) != facts.end(); };
        const bool burnsNothing = drive == Drive::BatteryElectric || drive == Drive::Hydrogen;
        if (burnsNothing && has(Fact::CombustionEngine))
            say(QStringLiteral("/car/facts"),
                QStringLiteral("no combustion-engine was expected in a car whose drive is %1")
                    .arg(nameOf(*drive)));
    }

    void sound()
    {
        QSet<QString> found;
        for (int i = 0; i < entries(m_root, QStringLiteral("/findings")); ++i)
            found.insert(text(m_root, entry("findings", i) + QStringLiteral("/place")));
        for (int i = 0; i < entries(m_root, QStringLiteral("/sound")); ++i) {
            const QString place = text(m_root, entry("sound", i));
            if (!place.isEmpty() && found.contains(place))
                say(entry("sound", i),
                    QStringLiteral("a place without a finding was expected; there is one on \"%1\"")
                        .arg(place));
        }
    }

    void treads()
    {
        QSet<QString> measured;
        for (int i = 0; i < entries(m_root, QStringLiteral("/tyres")); ++i) {
            const QString pointer = entry("tyres", i) + QStringLiteral("/place");
            const QString place = text(m_root, pointer);
            if (!place.isEmpty() && measured.contains(place))
                say(pointer, QStringLiteral("\"%1\" is measured above already").arg(place));
            measured.insert(place);
        }
        for (int i = 0; i < entries(m_root, QStringLiteral("/findings")); ++i) {
            const QString pointer = entry("findings", i);
            const PlaceInfo* info =
                placeInfo(PlaceId{text(m_root, pointer + QStringLiteral("/place"))});
            const QString tread = pointer + QStringLiteral("/tread_tenths_mm");
            if (info != nullptr && info->kind != PlaceKind::Tyre && at(m_root, tread) != nullptr)
                say(tread, QStringLiteral("a tread was expected on a tyre only, not on \"%1\"")
                               .arg(info->id.text));
        }
    }

    const Json& m_root;
    Faults m_faults;
};

AppraisalFile take(const Json& root)
{
    AppraisalFile file;
    const auto car = [&](const char* field) {
        return text(root, QStringLiteral("/car/") + QLatin1StringView(field)).trimmed();
    };
    const auto vin = readVin(car("vin"));
    file.identity.stockNumber = car("stock_number");
    file.identity.registration = car("registration");
    file.identity.vin = vin->text;
    file.identity.make = car("make");
    file.identity.model = car("model");
    file.identity.shape =
        word<BodyShape>(root, QStringLiteral("/car/body_shape")).value_or(BodyShape::Hatch);
    file.identity.colour = car("colour");
    file.identity.paintCode = car("paint_code");
    file.facts.has = words<Fact>(root, QStringLiteral("/car/facts"));
    file.facts.odometer = number(root, QStringLiteral("/car/odometer/value")).value_or(0);
    file.facts.odometerUnit = word<DistanceUnit>(root, QStringLiteral("/car/odometer/unit"))
                                  .value_or(DistanceUnit::Miles);
    file.facts.keys = number(root, QStringLiteral("/car/keys")).value_or(0);
    file.facts.testCertificateMonths = number(root, QStringLiteral("/car/test_certificate_months"));
    file.drive = word<Drive>(root, QStringLiteral("/car/drive")).value_or(Drive::Petrol);
    for (const Fact fact : factsOf(file.drive))
        if (!file.facts.is(fact))
            file.facts.has.push_back(fact);
    file.promised = day(root, QStringLiteral("/car/promised"));
    file.appraiser = text(root, QStringLiteral("/appraiser")).trimmed();
    file.date = day(root, QStringLiteral("/date"));
    for (int i = 0; i < entries(root, QStringLiteral("/findings")); ++i) {
        const QString here = entry("findings", i) + QLatin1Char('/');
        FindingData finding;
        finding.place = PlaceId{text(root, here + QStringLiteral("place"))};
        finding.condition =
            word<Condition>(root, here + QStringLiteral("condition")).value_or(Condition::Mark);
        finding.severity = word<Severity>(root, here + QStringLiteral("severity"));
        finding.remedies = words<Remedy>(root, here + QStringLiteral("remedies"));
        finding.count = number(root, here + QStringLiteral("count"));
        finding.sizeMm = number(root, here + QStringLiteral("size_mm"));
        finding.treadTenthsMm = number(root, here + QStringLiteral("tread_tenths_mm"));
        finding.note = text(root, here + QStringLiteral("note"));
        finding.quote = text(root, here + QStringLiteral("quote"));
        finding.atSeconds = number(root, here + QStringLiteral("at"));
        file.findings.push_back(std::move(finding));
    }
    for (int i = 0; i < entries(root, QStringLiteral("/sound")); ++i)
        file.sound.push_back(PlaceId{text(root, entry("sound", i))});
    for (int i = 0; i < entries(root, QStringLiteral("/tyres")); ++i) {
        const QString here = entry("tyres", i) + QLatin1Char('/');
        const auto tenths = [&](const char* field) {
            return number(root, here + QLatin1StringView(field)).value_or(0);
        };
        file.tyres.push_back(
            {PlaceId{text(root, here + QStringLiteral("place"))},
             {tenths("inner_tenths_mm"), tenths("centre_tenths_mm"), tenths("outer_tenths_mm")}});
    }
    if (const QString note = checkDigitNote(*vin); !note.isEmpty())
        file.notes.append(note);
    return file;
}

/// Line and column for each fault. A field that is missing is pointed out at what lacks it.
void place(Faults& faults, const QByteArray& json)
{
    QSet<QString> wanted;
    const auto parent = [](const QString& path) { return path.left(path.lastIndexOf('/')); };
    for (const FileFault& fault : faults)
        wanted << fault.path << parent(fault.path);
    const JsonScan scan = scanJson(json, wanted);
    for (FileFault& fault : faults) {
        placeFault(fault, json,
                   scan.offsets.value(fault.path, scan.offsets.value(parent(fault.path))));
        fault.words = faultInWords(fault);
    }
    std::ranges::stable_sort(faults, [](const FileFault& a, const FileFault& b) {
        return std::pair(a.line, a.column) < std::pair(b.line, b.column);
    });
}

Faults wholeFile(const QString& expected)
{
    FileFault fault;
    fault.expected = expected;
    fault.words = faultInWords(fault);
    return {fault};
}

/// The library's validator has the last word, so that nothing in the schema goes unheeded.
Faults validate(const Json& document, const rapidjson::Document& schema)
{
    const rapidjson::SchemaDocument compiled(schema);
    rapidjson::SchemaValidator validator(compiled);
    if (document.Accept(validator))
        return {};
    rapidjson::StringBuffer pointer;
    validator.GetInvalidDocumentPointer().Stringify(pointer);
    FileFault fault;
    fault.path = QString::fromUtf8(pointer.GetString());
    fault.expected = QStringLiteral("what the schema asks of \"%1\" was expected")
                         .arg(QString::fromUtf8(validator.GetInvalidSchemaKeyword()));
    return {fault};
}

} // namespace

std::vector<Fact> factsOf(Drive drive)
{
    switch (drive) {
    case Drive::Petrol:
    case Drive::Diesel:
    case Drive::MildHybrid:
    case Drive::Gas:
        return {Fact::CombustionEngine};
    case Drive::Hybrid:
    case Drive::PlugInHybrid:
        return {Fact::CombustionEngine, Fact::TractionBattery};
    case Drive::BatteryElectric:
    case Drive::Hydrogen:
        return {Fact::TractionBattery};
    }
    return {};
}

tl::expected<AppraisalFile, std::vector<FileFault>> readAppraisal(const QByteArray& bytes,
                                                                  const QByteArray& schemaBytes)
{
    if (bytes.size() > maxAppraisalBytes)
        return tl::unexpected(wholeFile(QStringLiteral("a file of at most %1 MB was expected")
                                            .arg(maxAppraisalBytes / bytesPerMegabyte)));
    const QByteArray json = bytes.startsWith("\xEF\xBB\xBF") ? bytes.mid(3) : bytes;
    if (json.contains('\0'))
        return tl::unexpected(wholeFile(QStringLiteral("text in UTF-8 was expected")));

    JsonScan scan = scanJson(json, {});
    if (!scan.faults.empty()) {
        scan.faults.resize(std::min(scan.faults.size(), maxAppraisalFaults));
        return tl::unexpected(std::move(scan.faults));
    }
    rapidjson::Document schema;
    if (schema.Parse(schemaBytes.constData(), static_cast<std::size_t>(schemaBytes.size()))
            .HasParseError() ||
        !schema.IsObject())
        return tl::unexpected(wholeFile(
            QStringLiteral("the schema of appraisal files was expected with the program")));
    rapidjson::Document document;
    rapidjson::MemoryStream stream(json.constData(), static_cast<std::size_t>(json.size()));
    document.ParseStream<rapidjson::kParseIterativeFlag | rapidjson::kParseValidateEncodingFlag>(
        stream);

    Faults faults = checkAgainstSchema(document, schema);
    std::ranges::move(Meaning(document).check(), std::back_inserter(faults));
    if (faults.empty())
        faults = validate(document, schema);
    if (!faults.empty()) {
        place(faults, json);
        faults.resize(std::min(faults.size(), maxAppraisalFaults));
        return tl::unexpected(std::move(faults));
    }
    AppraisalFile file = take(document);
    file.hash =
        QString::fromLatin1(QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex());
    return file;
}

} // namespace ramplight
