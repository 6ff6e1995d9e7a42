// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArrayView>
#include <QDebug>
#include <QString>

#include <array>
#include <cstddef>
#include <iosfwd>

namespace ramplight {

/// A PIN or a key in memory. It lives in one place: no copies, no heap, no way to print it, and its
/// bytes are overwritten when it is moved from, cleared or destroyed. Holds at most capacity bytes.
/// Value type without threads of its own.
class Secret
{
public:
    static constexpr std::size_t capacity = 64;

    Secret() = default;
    /// Copies the bytes in; whoever called still has to get rid of the original. What is longer
    /// than capacity is cut to nothing, never to a prefix that might pass for the whole.
    explicit Secret(QByteArrayView bytes);
    /// Takes what was typed and overwrites the text it came in. A text shared with another owner
    /// is overwritten only in this one.
    [[nodiscard]] static Secret taking(QString& typed);
    /// Fresh random bytes from the system's generator; count at most capacity.
    [[nodiscard]] static Secret random(std::size_t count);

    Secret(Secret&& other) noexcept;
    Secret& operator=(Secret&& other) noexcept;
    Secret(const Secret&) = delete;
    Secret& operator=(const Secret&) = delete;
    ~Secret();

    [[nodiscard]] bool isEmpty() const { return m_size == 0; }
    [[nodiscard]] std::size_t size() const { return m_size; }
    /// Valid until this secret changes or goes.
    [[nodiscard]] QByteArrayView bytes() const;
    [[nodiscard]] const unsigned char* data() const { return m_bytes.data(); }

    /// A digit of the PIN pad. Beyond capacity nothing is added.
    void append(char byte);
    void chop();
    void clear();
    /// An own copy, where two owners are really needed.
    [[nodiscard]] Secret clone() const { return Secret(bytes()); }

    /// Takes the same time wherever the first difference is.
    friend bool operator==(const Secret& a, const Secret& b);

private:
    std::array<unsigned char, capacity> m_bytes{};
    std::size_t m_size = 0;
};

// A secret never reaches a log.
QDebug operator<<(QDebug, const Secret&) = delete;
std::ostream& operator<<(std::ostream&, const Secret&) = delete;

} // namespace ramplight
