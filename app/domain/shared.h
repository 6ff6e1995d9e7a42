// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <memory>
#include <utility>

namespace ramplight {

/// A value that is never changed once it is made, so that copies share it: a car is copied with
/// every decision, what its operations were opened as is not. Reads like a pointer; never null.
template <class T>
class Shared
{
public:
    Shared()
        : m_value(none())
    {
    }
    Shared(T value)
        : m_value(std::make_shared<const T>(std::move(value)))
    {
    }

    const T& operator*() const { return *m_value; }
    const T* operator->() const { return m_value.get(); }
    operator const T&() const { return *m_value; }

    friend bool operator==(const Shared& one, const Shared& other)
    {
        return one.m_value == other.m_value || *one == *other;
    }

private:
    static const std::shared_ptr<const T>& none()
    {
        static const auto value = std::make_shared<const T>();
        return value;
    }

    std::shared_ptr<const T> m_value;
};

} // namespace ramplight
