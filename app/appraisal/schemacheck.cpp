// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/schemacheck.h"

#include <QHash>
#include <QRegularExpression>
#include <QStringList>

#include <algorithm>
#include <numeric>

namespace ramplight {

namespace {

using Json = rapidjson::Value;

/// Longer lists of allowed words are not shown whole; the nearest word helps more.
constexpr qsizetype wordsShown = 12;

/// A hostile file could have a fault in every byte.
constexpr std::size_t faultsCollected = 200;

QString textOf(const Json& value)
{
    return QString::fromUtf8(value.GetString(), static_cast<qsizetype>(value.GetStringLength()));
}

const Json* member(const Json& object, const char* name)
{
    const auto found = object.FindMember(name);
    return found == object.MemberEnd() ? nullptr : &found->value;
}

bool isWhole(const Json& value)
{
    return value.IsInt64() || value.IsUint64();
}

QString kindOf(const Json& value)
{
    if (value.IsObject())
        return QStringLiteral("an object");
    if (value.IsArray())
        return QStringLiteral("a list");
    if (value.IsString())
        return QStringLiteral("a text");
    if (value.IsBool())
        return QStringLiteral("true or false");
    if (value.IsNull())
        return QStringLiteral("null");
    return isWhole(value) ? QStringLiteral("a whole number") : QStringLiteral("a number");
}

QString typeInWords(const QString& type)
{
    static const QHash<QString, QString> words{
        {QStringLiteral("object"), QStringLiteral("an object")},
        {QStringLiteral("array"), QStringLiteral("a list")},
        {QStringLiteral("string"), QStringLiteral("a text")},
        {QStringLiteral("boolean"), QStringLiteral("true or false")},
        {QStringLiteral("integer"), QStringLiteral("a whole number")},
        {QStringLiteral("number"), QStringLiteral("a number")},
        {QStringLiteral("null"), QStringLiteral("null")},
    };
    return words.value(type, type);
}

bool hasType(const Json& value, const QString& type)
{
    const QString kind = kindOf(value);
    return kind == typeInWords(type) || (type == QLatin1StringView("number") && value.IsNumber());
}

class Walker
{
public:
    explicit Walker(const Json& root)
        : m_root(root)
    {
    }

    void check(const Json& value, const Json& written, const QString& path)
    {
        if (full())
            return;
        const Json& schema = resolve(written);
        if (const Json* type = member(schema, "type")) {
            const QString wanted = textOf(*type);
            if (!hasType(value, wanted)) {
                say(path, QStringLiteral("%1 was expected, not %2")
                              .arg(typeInWords(wanted), kindOf(value)));
                return;
            }
        }
        if (const Json* allowed = member(schema, "enum"))
            oneOf(value, *allowed, path);
        if (value.IsObject())
            object(value, schema, path);
        else if (value.IsArray())
            list(value, schema, path);
        else if (value.IsString())
            text(value, schema, path);
        else if (value.IsNumber())
            number(value, schema, path);
    }

    std::vector<FileFault> faults;

private:
    [[nodiscard]] bool full() const { return faults.size() >= faultsCollected; }

    void say(const QString& path, const QString& expected)
    {
        FileFault fault;
        fault.path = path;
        fault.expected = expected;
        faults.push_back(fault);
    }

    /// What it refers to; itself when it refers to nothing. Never of a temporary.
    const Json& resolve(Json&& schema) const = delete;
    [[nodiscard]] const Json& resolve(const Json& schema) const
    {
        const Json* ref = member(schema, "$ref");
        if (ref == nullptr)
            return schema;
        const QString name = textOf(*ref).section(QLatin1Char('/'), -1);
        const Json* definitions = member(m_root, "definitions");
        const Json* found =
            definitions == nullptr ? nullptr : member(*definitions, name.toUtf8().constData());
        return found == nullptr ? schema : resolve(*found);
    }

    /// What a field is to hold, for one that is missing.
    [[nodiscard]] QString describe(const Json& written) const
    {
        const Json& schema = resolve(written);
        if (const Json* description = member(schema, "description"))
            return textOf(*description);
        if (const Json* allowed = member(schema, "enum"))
            return wordsOf(*allowed).size() > wordsShown
                       ? QStringLiteral("one of the known words")
                       : QStringLiteral("one of %1")
                             .arg(wordsOf(*allowed).join(QStringLiteral(", ")));
        const Json* type = member(schema, "type");
        return type == nullptr ? QStringLiteral("a value") : typeInWords(textOf(*type));
    }

    static QStringList wordsOf(const Json& allowed)
    {
        QStringList words;
        for (const Json& word : allowed.GetArray())
            words.append(word.IsString() ? textOf(word) : QString::number(word.GetInt64()));
        return words;
    }

    void oneOf(const Json& value, const Json& allowed, const QString& path)
    {
        if (std::ranges::any_of(allowed.GetArray(),
                                [&](const Json& word) { return word == value; }))
            return;
        const QStringList words = wordsOf(allowed);
        const QString all = QStringLiteral("one of %1 was expected").arg(words.join(", "));
        if (!value.IsString()) {
            say(path, words.size() > wordsShown
                          ? QStringLiteral("a text was expected, not %1").arg(kindOf(value))
                          : all);
            return;
        }
        const QString nearest = nearestWord(textOf(value), words);
        QString said = QStringLiteral("\"%1\" is not known").arg(textOf(value).left(60));
        if (words.size() <= wordsShown)
            said += QStringLiteral("; ") + all;
        if (!nearest.isEmpty())
            said += QStringLiteral("; nearest is \"%1\"").arg(nearest);
        say(path, said);
    }

    static QString child(const QString& path, QString name)
    {
        name.replace(QLatin1Char('~'), QLatin1StringView("~0"));
        name.replace(QLatin1Char('/'), QLatin1StringView("~1"));
        return path + QLatin1Char('/') + name;
    }

    void object(const Json& value, const Json& schema, const QString& path)
    {
        static const Json none(rapidjson::kObjectType);
        const Json* written = member(schema, "properties");
        const Json& properties = written == nullptr ? none : *written;
        const Json* closed = member(schema, "additionalProperties");
        QStringList known;
        for (const auto& property : properties.GetObject())
            known.append(textOf(property.name));
        for (const auto& field : value.GetObject()) {
            if (full())
                return;
            const QString name = textOf(field.name);
            const auto property = properties.FindMember(field.name);
            if (property != properties.MemberEnd()) {
                check(field.value, property->value, child(path, name));
            } else if (closed != nullptr && closed->IsFalse()) {
                const QString nearest = nearestWord(name, known);
                say(child(path, name),
                    nearest.isEmpty() ? QStringLiteral("this field is not known; known are %1")
                                            .arg(known.join(", "))
                                      : QStringLiteral("this field is not known; nearest is \"%1\"")
                                            .arg(nearest));
            }
        }
        if (const Json* required = member(schema, "required"))
            for (const Json& name : required->GetArray())
                if (!value.HasMember(name)) {
                    const auto property = properties.FindMember(name);
                    say(child(path, textOf(name)),
                        QStringLiteral("this field is missing; %1 was expected")
                            .arg(property == properties.MemberEnd() ? QStringLiteral("a value")
                                                                    : describe(property->value)));
                }
    }

    void list(const Json& value, const Json& schema, const QString& path)
    {
        const Json* least = member(schema, "minItems");
        const Json* most = member(schema, "maxItems");
        if (least != nullptr && value.Size() < least->GetUint())
            say(path, QStringLiteral("at least %1 entries were expected, not %2")
                          .arg(least->GetUint())
                          .arg(value.Size()));
        if (most != nullptr && value.Size() > most->GetUint()) {
            // Going on would only repeat itself.
            say(path, QStringLiteral("at most %1 entries were expected, not %2")
                          .arg(most->GetUint())
                          .arg(value.Size()));
            return;
        }
        const Json* unique = member(schema, "uniqueItems");
        const Json* items = member(schema, "items");
        QHash<QString, rapidjson::SizeType> first;
        for (rapidjson::SizeType i = 0; i < value.Size(); ++i) {
            const QString at = child(path, QString::number(i));
            if (items != nullptr)
                check(value[i], *items, at);
            if (unique == nullptr || !unique->IsTrue() || !value[i].IsString())
                continue;
            const QString word = textOf(value[i]);
            if (first.contains(word))
                say(at, QStringLiteral("\"%1\" is there already, as entry %2")
                            .arg(word.left(60))
                            .arg(first.value(word) + 1));
            else
                first.insert(word, i);
        }
    }

    void text(const Json& value, const Json& schema, const QString& path)
    {
        const QString written = textOf(value);
        const qsizetype length = written.toUcs4().size();
        const Json* least = member(schema, "minLength");
        const Json* most = member(schema, "maxLength");
        if (least != nullptr && length < least->GetInt64())
            say(path, least->GetInt64() == 1
                          ? QStringLiteral("a text was expected, not an empty one")
                          : QStringLiteral("at least %1 characters were expected, not %2")
                                .arg(least->GetInt64())
                                .arg(length));
        else if (most != nullptr && length > most->GetInt64())
            say(path, QStringLiteral("at most %1 characters were expected, not %2")
                          .arg(most->GetInt64())
                          .arg(length));
        else if (const Json* pattern = member(schema, "pattern")) {
            const QRegularExpression form(textOf(*pattern));
            if (!form.match(written).hasMatch())
                say(path, QStringLiteral("%1 was expected, not \"%2\"")
                              .arg(describe(schema), written.left(60)));
        }
    }

    void number(const Json& value, const Json& schema, const QString& path)
    {
        const Json* least = member(schema, "minimum");
        const Json* most = member(schema, "maximum");
        const double found = value.GetDouble();
        if ((least == nullptr || found >= least->GetDouble()) &&
            (most == nullptr || found <= most->GetDouble()))
            return;
        const QString range =
            least != nullptr && most != nullptr
                ? QStringLiteral("from %1 to %2").arg(least->GetInt64()).arg(most->GetInt64())
            : least != nullptr ? QStringLiteral("from %1 up").arg(least->GetInt64())
                               : QStringLiteral("up to %1").arg(most->GetInt64());
        say(path, QStringLiteral("a number %1 was expected, not %2")
                      .arg(range, QString::number(found, 'g', 12)));
    }

    const Json& m_root;
};

/// How many letters have to change, come or go.
qsizetype distance(const QString& a, const QString& b)
{
    std::vector<qsizetype> row(static_cast<std::size_t>(b.size()) + 1);
    std::iota(row.begin(), row.end(), 0);
    for (qsizetype i = 1; i <= a.size(); ++i) {
        qsizetype diagonal = row.front();
        row.front() = i;
        for (qsizetype j = 1; j <= b.size(); ++j) {
            const auto at = static_cast<std::size_t>(j);
            const qsizetype change = diagonal + (a.at(i - 1) == b.at(j - 1) ? 0 : 1);
            diagonal = row.at(at);
            row.at(at) = std::min({change, row.at(at) + 1, row.at(at - 1) + 1});
        }
    }
    return row.back();
}

} // namespace

QString nearestWord(const QString& word, const QStringList& known)
{
    // Long nonsense has no nearest word, and is not worth the search.
    if (word.isEmpty() || word.size() > 60)
        return {};
    QString best;
    qsizetype bestDistance = word.size() / 2 + 1;
    for (const QString& candidate : known) {
        const qsizetype apart = distance(word.toLower(), candidate);
        if (apart < bestDistance) {
            bestDistance = apart;
            best = candidate;
        }
    }
    return best;
}

std::vector<FileFault> checkAgainstSchema(const rapidjson::Value& document,
                                          const rapidjson::Value& schema)
{
    Walker walker(schema);
    walker.check(document, schema, QString());
    return walker.faults;
}

} // namespace ramplight
