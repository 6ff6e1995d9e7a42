// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/reading.h"

#include <rapidjson/prettywriter.h>
#include <rapidjson/stringbuffer.h>

#include <cmath>

namespace ramplight {

namespace {

using Writer = rapidjson::PrettyWriter<rapidjson::StringBuffer>;

void text(Writer& writer, std::string_view value)
{
    writer.String(value.data(), rapidjson::SizeType(value.size()));
}

void id(Writer& writer, const PlaceId& place)
{
    const QByteArray utf8 = place.text.toUtf8();
    writer.String(utf8.constData(), rapidjson::SizeType(utf8.size()));
}

void moment(Writer& writer, double seconds)
{
    writer.Key("at");
    if (seconds < 0)
        writer.Null();
    else
        writer.Double(double(std::llround(seconds * 1000)) / 1000);
}

void places(Writer& writer, const char* key, const std::vector<PlaceId>& list)
{
    writer.Key(key);
    writer.StartArray();
    for (const PlaceId& place : list)
        id(writer, place);
    writer.EndArray();
}

void fact(Writer& writer, const char* key, const std::optional<int>& value)
{
    if (!value)
        return;
    writer.Key(key);
    writer.Int(*value);
}

void finding(Writer& writer, const SpokenFinding& it)
{
    writer.StartObject();
    writer.Key("place");
    id(writer, it.place);
    writer.Key("condition");
    text(writer, nameOf(it.condition).toStdString());
    writer.Key("severity");
    if (it.severity)
        text(writer, nameOf(*it.severity).toStdString());
    else
        writer.Null();
    writer.Key("remedies");
    writer.StartArray();
    for (const Remedy remedy : it.remedies)
        text(writer, nameOf(remedy).toStdString());
    writer.EndArray();
    writer.Key("count");
    if (it.count)
        writer.Int(*it.count);
    else
        writer.Null();
    moment(writer, it.seconds);
    writer.Key("quote");
    text(writer, it.quote);
    writer.Key("confidence");
    writer.Double(it.confidence);
    writer.EndObject();
}

} // namespace

QByteArray readingJson(const SpokenReading& reading)
{
    rapidjson::StringBuffer buffer;
    Writer writer(buffer);
    writer.SetIndent(' ', 1);
    writer.SetMaxDecimalPlaces(3);
    writer.StartObject();
    writer.Key("format");
    writer.Int(1);
    writer.Key("findings");
    writer.StartArray();
    for (const SpokenFinding& it : reading.findings)
        finding(writer, it);
    writer.EndArray();
    writer.Key("tyres");
    writer.StartArray();
    for (const SpokenTread& tread : reading.treads) {
        writer.StartObject();
        writer.Key("place");
        id(writer, tread.place);
        writer.Key("tread_tenths_mm");
        writer.StartObject();
        writer.Key("low");
        writer.Int(tread.lowTenthsMm);
        writer.Key("high");
        writer.Int(tread.highTenthsMm);
        writer.EndObject();
        moment(writer, tread.seconds);
        writer.Key("quote");
        text(writer, tread.quote);
        writer.EndObject();
    }
    writer.EndArray();
    places(writer, "sound", reading.sound);
    places(writer, "not_mentioned", reading.notMentioned);
    writer.Key("facts");
    writer.StartObject();
    if (reading.facts.odometer) {
        writer.Key("odometer");
        writer.StartObject();
        writer.Key("value");
        writer.Int(*reading.facts.odometer);
        writer.Key("unit");
        text(writer, nameOf(reading.facts.odometerUnit).toStdString());
        writer.EndObject();
    }
    fact(writer, "keys", reading.facts.keys);
    fact(writer, "test_certificate_months", reading.facts.testMonths);
    fact(writer, "service_stamps", reading.facts.serviceStamps);
    fact(writer, "owners", reading.facts.owners);
    writer.EndObject();
    writer.EndObject();
    return QByteArray(buffer.GetString(), qsizetype(buffer.GetSize())) + '\n';
}

} // namespace ramplight
