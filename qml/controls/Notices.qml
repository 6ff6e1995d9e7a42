// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma Singleton

import QtQuick

// What the eye is shown, for whoever serves the ear.
QtObject {
    // A banner came up that says what was refused or failed.
    signal refused
}
