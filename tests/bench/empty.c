/* empty.c - does nothing, linked with all that the program is linked with: what starting and loading alone cost.
 * SPDX-License-Identifier: MIT */
int main(void)
{
    return 0;
}
