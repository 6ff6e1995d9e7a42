// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/appraisalfile.h"

#include <QFile>

#include <rapidjson/document.h>
#include <rapidjson/schema.h>

// What the tests of appraisal files share.
namespace ramplight::test {

inline QByteArray bytesOf(const QString& path)
{
    QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/") + path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

/// Written so that every row knows its line: one thing a line.
inline QByteArray sample()
{
    return R"({
  "format": 1,
  "appraiser": "Oda Brekk",
  "date": "2031-05-05",
  "car": {
    "stock_number": "RL 2041",
    "registration": "RL 4172 K",
    "vin": "0RAKB12C1DE300417",
    "make": "Aurel",
    "model": "Kestin",
    "body_shape": "hatch",
    "odometer": {"value": 48210, "unit": "mi"},
    "keys": 2,
    "drive": "petrol",
    "facts": ["valve-sensors"],
    "promised": "2031-05-14"
  },
  "findings": [
    {"place": "bonnet", "condition": "chip", "count": 2},
    {"place": "tyre-front-right", "condition": "worn", "remedies": ["replace"],
     "tread_tenths_mm": 22}
  ],
  "sound": ["roof", "horn"],
  "tyres": [
    {"place": "tyre-front-right", "inner_tenths_mm": 22, "centre_tenths_mm": 29,
     "outer_tenths_mm": 31}
  ]
})";
}

inline QByteArray libraryVerdict(const QByteArray& json, const QByteArray& schemaBytes)
{
    rapidjson::Document schema;
    schema.Parse(schemaBytes.constData());
    rapidjson::Document document;
    document.Parse(json.constData());
    const rapidjson::SchemaDocument compiled(schema);
    rapidjson::SchemaValidator validator(compiled);
    return document.Accept(validator) ? QByteArray("good")
                                      : QByteArray(validator.GetInvalidSchemaKeyword());
}

inline QString allWords(const std::vector<FileFault>& faults)
{
    QStringList words;
    for (const FileFault& fault : faults)
        words.append(fault.words);
    return words.join(QLatin1Char('\n'));
}

} // namespace ramplight::test
