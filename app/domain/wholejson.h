// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"

// JSON for files that people read and change: every field stands in it, also those at their
// default, which events leave out. What is not set at all has no key. Reading is codec.h's.
namespace ramplight {

template <class T>
[[nodiscard]] QJsonValue wholeJson(const T& value)
{
    if constexpr (codec::IsOptional<T>::value) {
        return value ? wholeJson(*value) : QJsonValue();
    } else if constexpr (codec::IsVector<T>::value) {
        QJsonArray array;
        for (const auto& item : value)
            array.append(wholeJson(item));
        return array;
    } else if constexpr (Described<T>) {
        QJsonObject object;
        T::fields([&](const auto& f) {
            const QJsonValue member = wholeJson(value.*(f.member));
            if (!member.isNull())
                object.insert(QLatin1StringView(f.name), member);
        });
        return object;
    } else {
        return codec::write(value);
    }
}

} // namespace ramplight
