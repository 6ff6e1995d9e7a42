// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "domain/moment.h"
#include "domain/names.h"
#include "domain/shared.h"

#include <QDate>
#include <QJsonArray>
#include <QJsonObject>
#include <QJsonValue>
#include <QString>
#include <QStringList>

#include <cmath>
#include <optional>
#include <type_traits>
#include <utility>
#include <vector>

// Structs <-> JSON from one list of fields per struct:
//   static constexpr auto fields = fieldList(field("place", &Finding::place), ...);
// Events, catalogue and read tables all use it, so a field has one name everywhere. Reading is
// strict about types and lenient about absence: an absent field keeps its default (that is how a
// newer program reads an older event); a wrong type is an error naming the path.
// No threads, no I/O.
namespace ramplight {

template <class Struct, class Member>
struct Field
{
    const char* name;
    Member Struct::*member;
};

template <class Struct, class Member>
constexpr Field<Struct, Member> field(const char* name, Member Struct::*member)
{
    return {name, member};
}

/// The fields of a struct, in order: called with a visitor, it shows it one after the other. A
/// closure costs the compiler a fraction of what a std::tuple does, and there is one for each
/// struct.
template <class... Fields>
constexpr auto fieldList(Fields... fields)
{
    return [fields...](auto&& visit) { (visit(fields), ...); };
}

template <class T>
concept Described = requires
{
    T::fields;
};

/// Where and why reading failed, e.g. "operations[3].minutes.usual: a whole number was expected".
struct CodecError
{
    QString path;
    QString expected;

    [[nodiscard]] bool isEmpty() const { return expected.isEmpty(); }
    [[nodiscard]] QString words() const
    {
        return path.isEmpty() ? expected : QStringLiteral("%1: %2").arg(path, expected);
    }
};

namespace codec {

template <class T>
struct IsVector : std::false_type
{
};
template <class T>
struct IsVector<std::vector<T>> : std::true_type
{
};
template <class T>
struct IsOptional : std::false_type
{
};
template <class T>
struct IsOptional<std::optional<T>> : std::true_type
{
};
template <class T>
struct IsKey : std::false_type
{
};
template <class Tag>
struct IsKey<Key<Tag>> : std::true_type
{
};
template <class T>
struct IsSerial : std::false_type
{
};
template <class Tag>
struct IsSerial<Serial<Tag>> : std::true_type
{
};

template <class T>
struct IsShared : std::false_type
{
};
template <class T>
struct IsShared<Shared<T>> : std::true_type
{
    using Value = T;
};

template <class T>
QJsonValue write(const T& value)
{
    if constexpr (std::is_same_v<T, bool> || std::is_same_v<T, int> || std::is_same_v<T, QString>) {
        return QJsonValue(value);
    } else if constexpr (std::is_same_v<T, qint64>) {
        return QJsonValue(value);
    } else if constexpr (std::is_same_v<T, QDate>) {
        return value.isValid() ? QJsonValue(value.toString(Qt::ISODate)) : QJsonValue();
    } else if constexpr (std::is_same_v<T, QStringList>) {
        return QJsonArray::fromStringList(value);
    } else if constexpr (std::is_same_v<T, Moment>) {
        return QJsonValue(value.ms);
    } else if constexpr (IsKey<T>::value) {
        return QJsonValue(value.text);
    } else if constexpr (IsSerial<T>::value) {
        return QJsonValue(value.value);
    } else if constexpr (NamedEnum<T>) {
        return QJsonValue(nameOf(value));
    } else if constexpr (IsVector<T>::value) {
        QJsonArray array;
        for (const auto& item : value)
            array.append(write(item));
        return array;
    } else if constexpr (IsOptional<T>::value) {
        return value ? write(*value) : QJsonValue();
    } else if constexpr (IsShared<T>::value) {
        return write(*value);
    } else {
        static_assert(Described<T>, "give the struct a list of fields");
        // A field that has its default leaves no key: events stay small, and a field added later
        // changes nothing in what was written before.
        static const T blank{};
        QJsonObject object;
        T::fields([&](const auto& f) {
            if (!(value.*(f.member) == blank.*(f.member)))
                object.insert(QLatin1StringView(f.name), write(value.*(f.member)));
        });
        return object;
    }
}

inline CodecError expected(const QString& path, const char* what)
{
    return {path, QStringLiteral("%1 was expected").arg(QLatin1StringView(what))};
}

template <class T>
CodecError read(const QJsonValue& json, T& out, const QString& path)
{
    if constexpr (std::is_same_v<T, bool>) {
        if (!json.isBool())
            return expected(path, "true or false");
        out = json.toBool();
    } else if constexpr (std::is_same_v<T, int> || std::is_same_v<T, qint64>) {
        // Beyond 2^53 a JSON number is not exact; a number too large for its field is none of ours.
        constexpr double exact = 9'007'199'254'740'992.0;
        const double number = json.toDouble(exact * 2);
        const bool whole = std::abs(number) <= exact && number == std::trunc(number);
        if (!whole || !std::in_range<T>(json.toInteger()))
            return expected(path, "a whole number");
        out = static_cast<T>(json.toInteger());
    } else if constexpr (std::is_same_v<T, QString>) {
        if (!json.isString())
            return expected(path, "a text");
        out = json.toString();
    } else if constexpr (std::is_same_v<T, QDate>) {
        out = QDate::fromString(json.toString(), Qt::ISODate);
        if (!out.isValid())
            return expected(path, "a date like 2031-05-04");
    } else if constexpr (std::is_same_v<T, QStringList>) {
        if (!json.isArray())
            return expected(path, "a list of texts");
        out.clear();
        for (const QJsonValue& item : json.toArray()) {
            if (!item.isString())
                return expected(path, "a list of texts");
            out.append(item.toString());
        }
    } else if constexpr (std::is_same_v<T, Moment>) {
        return read(json, out.ms, path);
    } else if constexpr (IsKey<T>::value) {
        return read(json, out.text, path);
    } else if constexpr (IsSerial<T>::value) {
        return read(json, out.value, path);
    } else if constexpr (NamedEnum<T>) {
        const std::optional<T> value = fromName<T>(json.toString());
        if (!json.isString() || !value) {
            QStringList names;
            for (const auto& [v, name] : Names<T>::table)
                names.append(QLatin1StringView(name));
            return {path,
                    QStringLiteral("one of %1 was expected").arg(names.join(QStringLiteral(", ")))};
        }
        out = *value;
    } else if constexpr (IsVector<T>::value) {
        if (!json.isArray())
            return expected(path, "a list");
        out.clear();
        const QJsonArray array = json.toArray();
        out.reserve(static_cast<std::size_t>(array.size()));
        for (qsizetype i = 0; i < array.size(); ++i) {
            typename T::value_type item{};
            if (CodecError error =
                    read(array.at(i), item, QStringLiteral("%1[%2]").arg(path).arg(i));
                !error.isEmpty())
                return error;
            out.push_back(std::move(item));
        }
    } else if constexpr (IsOptional<T>::value) {
        if (json.isNull() || json.isUndefined()) {
            out.reset();
            return {};
        }
        typename T::value_type item{};
        CodecError error = read(json, item, path);
        if (error.isEmpty())
            out = std::move(item);
        return error;
    } else if constexpr (IsShared<T>::value) {
        typename IsShared<T>::Value item{};
        CodecError error = read(json, item, path);
        if (error.isEmpty())
            out = T(std::move(item));
        return error;
    } else {
        static_assert(Described<T>, "give the struct a list of fields");
        if (!json.isObject())
            return expected(path, "an object");
        const QJsonObject object = json.toObject();
        CodecError error;
        T::fields([&](const auto& f) {
            const QJsonValue member = object.value(QLatin1StringView(f.name));
            if (!error.isEmpty() || member.isUndefined())
                return;
            const QString name = QString::fromLatin1(f.name);
            error = read(member, out.*(f.member),
                         path.isEmpty() ? name : QStringLiteral("%1.%2").arg(path, name));
        });
        return error;
    }
    return {};
}

} // namespace codec

template <Described T>
[[nodiscard]] QJsonObject toJson(const T& value)
{
    return codec::write(value).toObject();
}

/// Fills out from json; an empty error means that all went well.
template <Described T>
[[nodiscard]] CodecError fromJson(const QJsonObject& json, T& out)
{
    return codec::read(QJsonValue(json), out, QString());
}

} // namespace ramplight
